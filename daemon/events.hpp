#pragma once

#include <vector>

#include "schema/json/json.hpp"
#include "schema/ledger/fold.hpp"

namespace tenth {

/// The `reading` event of a reading, as it stands now.
Json reading_event(const Bench& bench, std::int64_t seq);

/// The events that an entry gives (`schema/wire.md`), made from the state just after it: the same live and replayed.
std::vector<Json> events_of(const Bench& bench, const Entry& entry);

}  // namespace tenth
