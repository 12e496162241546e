#pragma once

#include <optional>
#include <string>

#include "schema/ledger/fold.hpp"

namespace tenth {

// One function for each kind of entry; `fold.cpp` holds the table. Grouped by file as below.

// fold_engines.cpp
void apply_spec(Bench&, const Entry&);
void apply_engine(Bench&, const Entry&);
void apply_engine_use(Bench&, const Entry&);
void apply_stage(Bench&, const Entry&);
void apply_temperature(Bench&, const Entry&);

// fold_gauges.cpp
void apply_profile(Bench&, const Entry&);
void apply_gauge(Bench&, const Entry&);
void apply_gauge_drop(Bench&, const Entry&);
void apply_link(Bench&, const Entry&);
void apply_await(Bench&, const Entry&);
void apply_await_end(Bench&, const Entry&);
void apply_setting(Bench&, const Entry&);
void apply_setting_void(Bench&, const Entry&);

// fold_masters.cpp
void apply_master(Bench&, const Entry&);
void apply_master_drop(Bench&, const Entry&);
void apply_calibration(Bench&, const Entry&);
void apply_setting_correct(Bench&, const Entry&);
void apply_resized(Bench&, const Entry&);
/// What a gauge is, or is to be, set on, as `await` and `setting` tell it; entries older than masters tell nothing.
MasterUsed master_used(const Json& body);

// fold_places.cpp
void apply_place(Bench&, const Entry&);
void apply_common(Bench&, const Entry&);
void apply_round(Bench&, const Entry&);

// fold_studies.cpp
void apply_study(Bench&, const Entry&);
void apply_master_study(Bench&, const Entry&);
void apply_on_master(Bench&, const Entry&);
void apply_turns_void(Bench&, const Entry&);

// fold_readings.cpp
void apply_reading(Bench&, const Entry&);
/// Follows a reading to its present size, place and material.
void correct_to_20c(const Bench&, Reading&);
void apply_answer(Bench&, const Entry&);
void apply_void(Bench&, const Entry&);
void apply_keep(Bench&, const Entry&);
void apply_move(Bench&, const Entry&);
void apply_doubt(Bench&, const Entry&);
void apply_closed(Bench&, const Entry&);
void apply_reopened(Bench&, const Entry&);

// fold_alerts.cpp
void apply_alert(Bench&, const Entry&);
void apply_alert_end(Bench&, const Entry&);
void apply_alert_clear(Bench&, const Entry&);

// fold_choices.cpp
void apply_note(Bench&, const Entry&);
void apply_decide(Bench&, const Entry&);
void apply_install(Bench&, const Entry&);
void apply_mate(Bench&, const Entry&);
void apply_attach(Bench&, const Entry&);
void apply_import(Bench&, const Entry&);

// fold_shop.cpp
void apply_setup(Bench&, const Entry&);
void apply_send(Bench&, const Entry&);
void apply_receive(Bench&, const Entry&);

/// Keeps a choice for the record: what was chosen, in plain words, and from the body why and by whom.
void note_choice(Bench&, const Entry&, std::string text);

/// The engine that an entry is about.
Engine& engine_of(Bench&, const Entry&);

// Values of a body; absent and null are empty. A wrong type throws: such a body is not ours.
std::optional<std::string> text_at(const Json& body, const char* key);
std::optional<Length> length_at(const Json& body, const char* key);
std::optional<std::int64_t> seq_at(const Json& body, const char* key);
/// The operator, else the login.
std::string who_did(const Json& body);

}  // namespace tenth
