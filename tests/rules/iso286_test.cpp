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

void expect_classes(const std::vector<std::tuple<std::string, int, std::string>>& known) {
  for (const auto& [size, nominal, want] : known) EXPECT_EQ(deviations(size, nominal), want) << size;
}

// Cells of workshop handbooks, from memory.
TEST(Iso286, GivesShaftsOfEveryKind) {
  expect_classes({{"2 g6", 2, "-8 -2"},         {"35 c11", 35, "-280 -120"},  {"45 c11", 45, "-290 -130"},
                  {"20 a11", 20, "-430 -300"},  {"50 b11", 50, "-340 -180"},  {"300 f7", 300, "-108 -56"},
                  {"350 e8", 350, "-214 -125"}, {"450 d9", 450, "-385 -230"}, {"5 ef6", 5, "-22 -14"},
                  {"500 h11", 500, "-400 0"},   {"20 h01", 20, "-0.6 0"},     {"83 k8", 83, "0 54"},
                  {"83 k3", 83, "0 6"},         {"300 k6", 300, "4 36"},      {"2 k6", 2, "0 6"},
                  {"300 m6", 300, "20 52"},     {"450 n6", 450, "40 80"},     {"400 p6", 400, "62 98"},
                  {"60 r6", 60, "41 60"},       {"70 r6", 70, "43 62"},       {"25 s6", 25, "35 48"},
                  {"60 s6", 60, "53 72"},       {"100 s6", 100, "71 93"},     {"28 t6", 28, "41 54"},
                  {"50 t6", 50, "54 70"},       {"20 u6", 20, "41 54"},       {"28 u6", 28, "48 61"},
                  {"100 u7", 100, "124 159"},   {"16 v6", 16, "39 50"},       {"50 x7", 50, "97 122"},
                  {"20 y7", 20, "63 84"},       {"50 z8", 50, "136 175"},     {"20 za8", 20, "98 131"},
                  {"20 zb8", 20, "136 169"},    {"20 zc9", 20, "188 240"}});
}

// Cells of workshop handbooks, from memory.
TEST(Iso286, GivesHolesOfEveryKind) {
  expect_classes(
      {{"300 H7", 300, "0 52"},     {"450 H6", 450, "0 40"},     {"2 H7", 2, "0 10"},       {"35 C11", 35, "120 280"},
       {"20 A11", 20, "300 430"},   {"300 K7", 300, "-36 16"},   {"2 K7", 2, "-10 0"},      {"2 M7", 2, "-12 -2"},
       {"2 N7", 2, "-14 -4"},       {"2 P7", 2, "-16 -6"},       {"2 N9", 2, "-29 -4"},     {"25 N9", 25, "-52 0"},
       {"300 N9", 300, "-130 0"},   {"25 M9", 25, "-60 -8"},     {"280 M6", 280, "-41 -9"}, {"320 M6", 320, "-46 -10"},
       {"25 R7", 25, "-41 -20"},    {"25 S7", 25, "-48 -27"},    {"60 S7", 60, "-72 -42"},  {"28 T7", 28, "-54 -33"},
       {"28 U7", 28, "-61 -40"},    {"25 S8", 25, "-68 -35"},    {"25 P9", 25, "-74 -22"},  {"25 K5", 25, "-8 1"},
       {"25 JS14", 25, "-260 260"}, {"25 JS01", 25, "-0.3 0.3"}, {"8 CD9", 8, "56 92"}});
}

// From memory of the tables over 500 mm.
TEST(Iso286, GivesLargeSizes) {
  expect_classes({{"600 H7", 600, "0 70"},
                  {"1000 h6", 1000, "-56 0"},
                  {"3000 JS8", 3000, "-165 165"},
                  {"600 f7", 600, "-146 -76"},
                  {"900 e8", 900, "-310 -170"},
                  {"900 g6", 900, "-82 -26"},
                  {"2000 d9", 2000, "-800 -430"},
                  {"600 k7", 600, "0 70"},
                  {"600 m6", 600, "26 70"},
                  {"600 p6", 600, "78 122"},
                  {"540 r6", 540, "150 194"},
                  {"600 r6", 600, "155 199"},
                  {"600 s6", 600, "310 354"},
                  {"600 t6", 600, "450 494"},
                  {"600 u6", 600, "660 704"},
                  {"600 K7", 600, "-70 0"},
                  {"600 N7", 600, "-114 -44"},
                  {"600 P7", 600, "-148 -78"}});
}

TEST(Iso286, GradesFinerThanAMicrometreStayExact) {
  EXPECT_EQ(*iso286_limits("20 H01").value().upper, Length::from_mm(20) + Length::from_pm(600'000));
  EXPECT_EQ(*iso286_limits("40 js01").value().lower, Length::from_mm(40) - Length::from_pm(300'000));
  EXPECT_EQ(*iso286_limits("5 K4").value().upper, Length::from_mm(5) + Length::from_pm(500'000));
}

TEST(Iso286, AFitIsAlikeOnEitherBasis) {
  // H7/p6 and P7/h6 are the same fit, as are H8/k7 and K8/h7: the rule that moves K to P back exists for this.
  for (const std::string size : {"5", "25", "83", "200", "480"})
    for (const auto& [hole, shaft, other_hole, other_shaft] :
         {std::tuple{"H7", "p6", "P7", "h6"}, std::tuple{"H8", "k7", "K8", "h7"}, std::tuple{"H7", "n6", "N7", "h6"},
          std::tuple{"H8", "f7", "F8", "h7"}, std::tuple{"H7", "zc6", "ZC7", "h6"},
          std::tuple{"H3", "s2", "S3", "h2"}}) {
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
  EXPECT_EQ(deviations("3 H7", 3), "0 10");
  EXPECT_EQ(deviations("3150 H7", 3150), "0 210");
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
  for (const char* size : {"", "83", "H7", "83 H", "83 7", "83 H7 ", "83  H7", "83 H007", "83 H07", "83 H00",
                           "83 H7 H8", "83 H-7", "8x3 H7", "83 mm H7", "83 H7/p6", "83 H7.5", "83 Js6", "83 hhh6"})
    EXPECT_NE(why_not(size).find("is no ISO 286 class"), std::string::npos) << size;
}

void expect_not_known(const std::vector<const char*>& sizes, const std::string& why) {
  for (const char* size : sizes)
    EXPECT_NE(why_not(size).find("is not known: " + why), std::string::npos) << why_not(size);
}

TEST(Iso286, RefusesWhatTheStandardDoesNotHave) {
  expect_not_known({"0 H7", "-83 H7", "3150.001 H7"}, "it is not over 0 up to 3150 mm");
  expect_not_known({"83 H19", "83 h99"}, "the grades are 01, 0 and 1 to 18");
  expect_not_known({"501 H0", "501 h01"}, "here are the grades 1 to 18");
  expect_not_known({"83 o6", "83 W7", "83 hh6", "24 t6", "14 V8", "18 y7", "501 c11", "501 z8"}, "the deviation");
  expect_not_known({"1 h14", "0.5 JS18"}, "up to 1 mm there are the grades 01 to 13");
  expect_not_known({"1 a11", "1 B11"}, "up to 1 mm there is no a and no b");
  expect_not_known({"1 N9"}, "up to 1 mm N has no grade above 8");
  EXPECT_EQ(deviations("1 N8", 1), "-18 -4");
  EXPECT_EQ(deviations("1 n9", 1), "4 29");
}

TEST(Iso286, RefusesWhatItIsNotSureOf) {
  expect_not_known({"83 j6", "83 J7", "20 cd8", "20 EF8", "11 fg6"}, "the deviation");
  expect_not_known({"83 K2", "83 P01", "500 ZC1"}, "here holes from K on have no grade below 3");
  expect_not_known({"83 K9", "600 K9"}, "here K has no grade above 8");
  expect_not_known({"600 M9", "600 N9"}, "here M and N have no grade above 8");
}

TEST(Iso286, RefusesLimitsThatLeaveNothing) {
  expect_not_known({"0.05 h12", "0.03 JS11", "0.05 c5"}, "it leaves nothing of the size");
  EXPECT_EQ(*iso286_limits("0.1000001 h12").value().lower, Length::from_pm(100));
}

}  // namespace
}  // namespace tenth
