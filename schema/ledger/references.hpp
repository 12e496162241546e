#pragma once

#include <cstdint>
#include <vector>

#include "schema/json/json.hpp"

namespace tenth {

/// The seqs of the entries that an entry rests on: what a record must hold for its figures to be made again.
std::vector<std::int64_t> references(const Json& body);

}  // namespace tenth
