#pragma once

#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "tests/rules/workpiece.hpp"

namespace tenth::testing {

using Published = nlohmann::json;

/// The tables of tests/references/engine-limits.json.
inline const Published& published() {
  static const Published tables =
      Published::parse(std::ifstream(TENTH_SOURCE_DIR "/tests/references/engine-limits.json"));
  return tables;
}

/// Two figures of a table, smallest and largest.
struct Ends {
  Length least, most;
  friend bool operator==(const Ends&, const Ends&) = default;
};

inline Ends ends(const Published& pair, const std::string& unit) {
  return {len(pair.at(0).get<std::string>() + unit), len(pair.at(1).get<std::string>() + unit)};
}

/// The clearances that the parts at the ends of their sizes leave, figured as a fit: the bearing inside is the housing
/// less two shell walls.
inline Ends clearance(const Ends& housing, const Ends& outside, const Ends& shell = {}) {
  Workpiece work;
  work.feature("bearing", Kind::inside, {}).levels = {"tight", "loose"};
  work.feature("journal", Kind::outside, {}).levels = {"thick", "thin"};
  work.fit("clearance", "bearing", "journal", {});
  work.read("bearing/1/tight", housing.least - shell.most * 2);
  work.read("bearing/1/loose", housing.most - shell.least * 2);
  work.read("journal/1/thick", outside.most);
  work.read("journal/1/thin", outside.least);
  const FitResult result = work.fitted();
  return {result.min.value(), result.max.value()};
}

}  // namespace tenth::testing
