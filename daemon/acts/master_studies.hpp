#pragma once

#include "daemon/acts/acts.hpp"
#include "daemon/acts/intake.hpp"
#include "daemon/params.hpp"

namespace tenth {

/// `study.plan` with `what`: the gauge walks masters in a random order, each press of it one turn.
Decided plan_on_masters(Draft& draft, const Json& object);

/// The name that is asked for, if no study has it, of masters or of parts.
Result<std::string> new_study_name(const Bench& bench, const Params& params);

/// The frame that a gauge showed on the master of its study's turn; the next turn waits then. Returns its seq.
std::int64_t take_on_master(Draft& draft, const Gauge& gauge, const Awaited& awaited, const Frame& frame);

/// Turns among what was stored of a burst that shows damage: they count no more, and are asked for again. Of a study
/// whose last turn is among them as many go as the burst can have had.
void void_damaged_turns(Draft& draft, const std::vector<std::int64_t>& seqs);

}  // namespace tenth
