#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "rules/statistics/crossed.hpp"

namespace tenth::statistics::testing {

using Expected = nlohmann::json;
using Row = std::map<std::string, std::string>;

inline std::string reference(const std::string& file) {
  return TENTH_SOURCE_DIR "/tests/references/" + file;
}

/// The head of each file says where its figures were read and how sure they are.
inline Expected expected(const std::string& file) {
  return Expected::parse(std::ifstream(reference(file)));
}

inline std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream stream(line);
  for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
  return cells;
}

inline std::vector<Row> rows(const std::string& file) {
  std::ifstream stream(reference(file));
  std::vector<std::string> names;
  std::vector<Row> rows;
  for (std::string line; std::getline(stream, line);) {
    if (line.empty() || line.starts_with('#')) continue;
    const auto cells = split(line);
    if (names.empty()) {
      names = cells;
      continue;
    }
    Row& row = rows.emplace_back();
    for (std::size_t i = 0; i < cells.size(); ++i) row[names.at(i)] = cells[i];
  }
  EXPECT_FALSE(rows.empty()) << file;
  return rows;
}

inline double number(const Row& row, const std::string& column) {
  return std::stod(row.at(column));
}

/// A column of the rows where `where` reads `is`; of all rows without a `where`.
inline std::vector<double> column(const std::string& file, const std::string& name, const std::string& where = "",
                                  const std::string& is = "") {
  std::vector<double> values;
  for (const Row& row : rows(file))
    if (where.empty() || row.at(where) == is) values.push_back(number(row, name));
  return values;
}

inline std::vector<StudyReading> study_readings(const std::string& name) {
  std::vector<StudyReading> readings;
  for (const Row& row : rows("grr_" + name + ".csv"))
    readings.push_back(
        {std::stoi(row.at("part")), row.at("appraiser"), std::stoi(row.at("trial")), number(row, "value")});
  return readings;
}

inline Crossed study(const std::string& name) {
  return crossed(study_readings(name)).value();
}

/// Equal to a relative `share`, for values computed to more digits than are held here.
inline void expect_close(double got, double want, const std::string& what, double share = 1e-9) {
  EXPECT_NEAR(got, want, std::abs(want) * share + 1e-13) << what;
}

/// The word of a refusal; "accepted" where there was none.
template <class T>
std::string code_of(const Result<T>& result) {
  if (result) return "accepted";
  EXPECT_EQ(result.error().exit, Exit::refused);
  EXPECT_FALSE(result.error().message.empty());
  EXPECT_FALSE(result.error().remedy.empty());
  return result.error().code;
}

}  // namespace tenth::statistics::testing
