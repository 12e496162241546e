#pragma once

#include <string>
#include <vector>

#include "schema/json/json.hpp"
#include "schema/store/ledger.hpp"

namespace tenth::sample {

/// The rows of a chain with these bodies, from row 1.
std::vector<Row> chained(const std::vector<std::string>& bodies);

/// A ledger of two engines measured in turns by hand and with a comparator: "red" has two bores and two pistons, of
/// which one reading is void, one moved and one suspect; its pistons were measured again in a second stage.
std::vector<Row> two_engines();

/// Seqs of `two_engines` that the tests speak of.
inline constexpr std::int64_t kRedSpec = 6, kBlueSpec = 8, kSetting = 10, kBluePlace = 12, kRedReading = 13,
                              kBlueReading = 14;

}  // namespace tenth::sample
