#include "rules/iso286.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <sstream>
#include <vector>

namespace tenth {
namespace {

/// The lower and upper deviation of a class in micrometres, as a text such as "0 35"; the refusal's words where
/// refused.
std::string deviations(const std::string& size, int nominal_mm) {
  const auto limits = iso286_limits(size);
  if (!limits) return limits.error().message;
  const Length nominal = Length::from_mm(nominal_mm);
  const auto um = [&](Length limit) { return exact_mm((limit - nominal) * 1000); };
  return um(*limits->lower) + " " + um(*limits->upper);
}

using Row = std::map<std::string, std::string>;

std::vector<Row> reference_rows() {
  std::ifstream file(TENTH_SOURCE_DIR "/tests/references/iso286.csv");
  std::vector<std::string> names;
  std::vector<Row> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with('#')) continue;
    std::vector<std::string> cells;
    std::istringstream stream(line);
    for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
    if (names.empty()) {
      names = cells;
      continue;
    }
    Row row;
    for (std::size_t i = 0; i < cells.size(); ++i) row[names.at(i)] = cells[i];
    rows.push_back(row);
  }
  return rows;
}

// tests/references/iso286.csv: its head says where each cell was read.
TEST(Iso286, AgreesWithEveryCellOfTheReference) {
  int cells = 0;
  for (const auto& row : reference_rows()) {
    const int over = std::stoi(row.at("over_mm")), to = std::stoi(row.at("to_mm"));
    for (const auto& [column, lower] : row) {
      if (!column.ends_with("_lower")) continue;
      const std::string name = column.substr(0, column.find('_'));
      const std::string want = lower + " " + row.at(name + "_upper");
      for (const int nominal : {over + 1, (over + to) / 2, to}) {
        EXPECT_EQ(deviations(std::to_string(nominal) + " " + name, nominal), want) << nominal << " " << name;
        ++cells;
      }
    }
    for (int grade = 5; grade <= 9; ++grade)
      EXPECT_EQ(deviations(std::to_string(to) + "H" + std::to_string(grade), to),
                "0 " + row.at("IT" + std::to_string(grade)));
  }
  EXPECT_EQ(cells, 9 * 15 * 3);
}

// From memory of the standard's tables; common in workshop handbooks.
TEST(Iso286, GivesClassesBesideTheReference) {
  const std::vector<std::tuple<std::string, int, std::string>> known = {
      {"25 G7", 25, "7 28"},      {"25 F8", 25, "20 53"},   {"25 E9", 25, "40 92"},   {"25 D9", 25, "65 117"},
      {"25 K6", 25, "-11 2"},     {"25 K7", 25, "-15 6"},   {"25 K8", 25, "-23 10"},  {"60 K7", 60, "-21 9"},
      {"25 M6", 25, "-17 -4"},    {"25 M7", 25, "-21 0"},   {"25 M8", 25, "-29 4"},   {"25 N7", 25, "-28 -7"},
      {"100 N7", 100, "-45 -10"}, {"25 P6", 25, "-31 -18"}, {"25 P7", 25, "-35 -14"}, {"25 P8", 25, "-55 -22"},
      {"8 d9", 8, "-76 -40"},     {"25 d8", 25, "-98 -65"}, {"40 e8", 40, "-89 -50"}, {"100 e8", 100, "-126 -72"},
      {"40 n6", 40, "17 33"},     {"100 n6", 100, "23 45"}, {"60 n5", 60, "20 33"},   {"200 f6", 200, "-79 -50"},
      {"60 k5", 60, "2 15"},      {"60 k7", 60, "2 32"},    {"60 js9", 60, "-37 37"}, {"250 js5", 250, "-10 10"}};
  for (const auto& [size, nominal, want] : known) EXPECT_EQ(deviations(size, nominal), want) << size;
}

// The same table rows whole, from memory: shafts d, e and n.
TEST(Iso286, GivesDAndEAndNInEveryStep) {
  const std::vector<int> to = {6, 10, 18, 30, 50, 80, 120, 180, 250};
  const std::map<char, std::vector<int>> rows = {{'D', {30, 40, 50, 65, 80, 100, 120, 145, 170}},
                                                 {'E', {20, 25, 32, 40, 50, 60, 72, 85, 100}},
                                                 {'n', {8, 10, 12, 15, 17, 20, 23, 27, 31}}};
  for (const auto& [letter, row] : rows)
    for (std::size_t i = 0; i < to.size(); ++i) {
      const auto limits = iso286_limits(std::to_string(to[i]) + " " + letter + "6").value();
      EXPECT_EQ(*limits.lower, Length::from_mm(to[i]) + Length::from_um(row[i])) << letter << to[i];
    }
}

TEST(Iso286, AFitIsAlikeOnEitherBasis) {
  // H7/p6 and P7/h6 are the same fit, as are H8/k7 and K8/h7: the rule that moves K to P back exists for this.
  for (const std::string size : {"5", "25", "83", "200"})
    for (const auto& [hole, shaft, other_hole, other_shaft] :
         {std::tuple{"H7", "p6", "P7", "h6"}, std::tuple{"H8", "k7", "K8", "h7"}, std::tuple{"H7", "n6", "N7", "h6"},
          std::tuple{"H8", "f7", "F8", "h7"}}) {
      const auto a = iso286_limits(size + hole).value(), b = iso286_limits(size + shaft).value();
      const auto c = iso286_limits(size + other_hole).value(), d = iso286_limits(size + other_shaft).value();
      EXPECT_EQ(*a.upper - *b.lower, *c.upper - *d.lower) << size << hole << shaft;
      EXPECT_EQ(*a.lower - *b.upper, *c.lower - *d.upper) << size << hole << shaft;
    }
}

TEST(Iso286, ReadsSizesAsPeopleWriteThem) {
  EXPECT_EQ(deviations("83H7", 83), "0 35");
  EXPECT_EQ(deviations("60 k6", 60), "2 21");
  EXPECT_EQ(iso286_limits("52.5 JS6").value().lower, Length::from_um(52'500) - Length::from_pm(9'500'000));
  EXPECT_EQ(iso286_limits("52,5 js6"), iso286_limits("52.5js6"));
}

TEST(Iso286, AStepEndsWithItsLastSize) {
  EXPECT_EQ(deviations("80 H7", 80), "0 30");
  EXPECT_EQ(*iso286_limits("80.000000001 H7").value().upper, Length::from_um(80'035) + Length::from_pm(1));
  EXPECT_EQ(*iso286_limits("3.001 H7").value().upper, Length::from_um(3'013));
}

std::string why_not(const std::string& size) {
  const auto limits = iso286_limits(size);
  if (limits) return "accepted";
  EXPECT_EQ(limits.error().exit, Exit::refused);
  EXPECT_EQ(limits.error().code, "tolerance_class");
  EXPECT_FALSE(limits.error().remedy.empty());
  return limits.error().message;
}

TEST(Iso286, RefusesWhatIsNoClass) {
  for (const char* size : {"", "83", "H7", "83 H", "83 7", "83 H7 ", "83  H7", "83 H007", "83 H7 H8", "83 H-7",
                           "8x3 H7", "83 mm H7", "83 H7/p6", "83 H7.5"})
    EXPECT_NE(why_not(size).find("is no ISO 286 class"), std::string::npos) << size;
}

TEST(Iso286, RefusesWhatItIsNotSureOf) {
  for (const char* size : {"3 H7", "0 H7", "-83 H7", "250.001 H7", "1000 H7"})
    EXPECT_NE(why_not(size).find("not over 3 mm up to 250 mm"), std::string::npos) << size;
  for (const char* size :
       {"83 j6", "83 J7", "83 a11", "83 zc8", "83 Js6", "83 fg6", "83 hh6", "83 s6", "83 X7", "83 o6"})
    EXPECT_NE(why_not(size).find("not known"), std::string::npos) << size;
  EXPECT_NE(why_not("83 H4").find("grades 5 to 9"), std::string::npos);
  EXPECT_NE(why_not("83 h10").find("grades 5 to 9"), std::string::npos);
  EXPECT_NE(why_not("83 k8").find("grades 5 to 7"), std::string::npos);
  EXPECT_NE(why_not("83 K5").find("grades 6 to 8"), std::string::npos);
  EXPECT_NE(why_not("83 P5").find("grades 6 to 9"), std::string::npos);
}

}  // namespace
}  // namespace tenth
