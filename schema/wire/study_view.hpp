#pragma once

#include "schema/json/json.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth {

/// What a study has given so far: how far it is, and, once whole, both methods' results and what the gauge is good for.
Json study_json(const Bench& bench, const Study& study);

/// How far a study of masters is: the `study` event, and the answer of a command that took a turn.
Json master_study_json(const Bench& bench, const MasterStudy& study);

}  // namespace tenth
