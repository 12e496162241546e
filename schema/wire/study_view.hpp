#pragma once

#include "schema/json/json.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth {

/// What a study has given so far: how far it is, and, once whole, both methods' results and what the gauge is good for.
Json study_json(const Bench& bench, const Study& study);

}  // namespace tenth
