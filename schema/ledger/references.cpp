#include "schema/ledger/references.hpp"

#include <array>

namespace tenth {
namespace {

constexpr std::array kOne = {"spec",        "gauge_entry", "profile_entry", "setting",        "calibration",
                             "place",       "stage_entry", "temperature",   "operator_entry", "round",
                             "alert",       "previous",    "master_entry",  "master_reading", "correction",
                             "gauge_doubt", "import"};

}  // namespace

std::span<const char* const> reference_keys() {
  return kOne;
}

std::vector<std::int64_t> references(const Json& body) {
  std::vector<std::int64_t> seqs;
  for (const char* key : kOne)
    if (const auto found = body.find(key); found != body.end() && found->is_number_integer())
      seqs.push_back(found->get<std::int64_t>());
  if (const auto found = body.find("seqs"); found != body.end() && found->is_array())
    for (const Json& seq : *found)
      if (seq.is_number_integer()) seqs.push_back(seq.get<std::int64_t>());
  if (const auto found = body.find("moves"); found != body.end() && found->is_array())
    for (const Json& move : *found)
      if (move.is_object() && move.contains("seq") && move["seq"].is_number_integer())
        seqs.push_back(move["seq"].get<std::int64_t>());
  return seqs;
}

}  // namespace tenth
