#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "schema/json/json.hpp"

namespace tenth {

/// The seqs of the entries that an entry rests on: what a record must hold for its figures to be made again.
std::vector<std::int64_t> references(const Json& body);

/// The keys under which a body names one of them; the array `seqs` and `seq` in each of `moves` name the others.
std::span<const char* const> reference_keys();

}  // namespace tenth
