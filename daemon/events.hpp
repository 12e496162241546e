#pragma once

#include <vector>

#include "schema/json/json.hpp"
#include "schema/ledger/fold.hpp"

namespace tenth {

/// The events that an entry gives (`schema/wire.md`), made from the state just after it: the same live and replayed.
std::vector<Json> events_of(const Bench& bench, const Entry& entry);

}  // namespace tenth
