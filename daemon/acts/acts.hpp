#pragma once

#include "daemon/draft.hpp"
#include "rules/result.hpp"

namespace tenth {

/// Every act decides against the state, appends what follows from it, and says how to answer once that is on disk.
using Decided = Result<Answerer>;

// engines.cpp
Decided engine_add(Draft&, const Json& params);
Decided engine_use(Draft&, const Json& params);
Decided stage_begin(Draft&, const Json& params);

// respec.cpp
Decided engine_respec(Draft&, const Json& params);

// parts.cpp
Decided make_decision(Draft&, const Json& params);
Decided install_part(Draft&, const Json& params);
Decided mate_parts(Draft&, const Json& params);

// shop.cpp
Decided setup_done(Draft&, const Json& params);
Decided send_parts(Draft&, const Json& params);
Decided receive_parts(Draft&, const Json& params);

// imports.cpp
Decided import_table(Draft&, const Json& params);

// operators.cpp
Decided operator_add(Draft&, const Json& params);
Decided operator_use(Draft&, const Json& params);

// gauges.cpp
Decided gauge_add(Draft&, const Json& params);
Decided gauge_change(Draft&, const Json& params);
Decided gauge_drop(Draft&, const Json& params);

// masters.cpp
Decided master(Draft&, const Json& params);
Decided recheck(Draft&, const Json& params);
Decided masters_add(Draft&, const Json& params);
Decided masters_drop(Draft&, const Json& params);

// master_corrections.cpp
Decided master_correct(Draft&, const Json& params);

// gauge_life.cpp
Decided gauge_calibrate(Draft&, const Json& params);
Decided gauge_doubt(Draft&, const Json& params);

// places.cpp
Decided at(Draft&, const Json& params);
Decided at_common(Draft&, const Json& params);
Decided at_none(Draft&, const Json& params);
Decided round_begin(Draft&, const Json& params);
Decided round_next(Draft&, const Json& params);
Decided round_back(Draft&, const Json& params);

// pedals.cpp
Decided pedal_add(Draft&, const Json& params);
Decided pedal_drop(Draft&, const Json& params);
// take.cpp
Decided take(Draft&, const Json& params);
// by_hand.cpp
Decided enter(Draft&, const Json& params);
/// Yes to the check that stands.
Decided answer_yes(Draft&, const Json& params);

// studies.cpp
Decided study_plan(Draft&, const Json& params);

// temperatures.cpp
Decided temperature(Draft&, const Json& params);

// notes.cpp
Decided add_note(Draft&, const Json& params);
Decided attach_file(Draft&, const Json& params);

// corrections.cpp
Decided undo(Draft&, const Json& params);
Decided void_readings(Draft&, const Json& params);
Decided keep_readings(Draft&, const Json& params);
Decided move_readings(Draft&, const Json& params);

// alarm.cpp
Decided alerts_clear(Draft&, const Json& params);
/// Raises and ends alerts for what the entries of this act changed. Last in every act, in the same transaction.
void tell_alerts(Draft&);

}  // namespace tenth
