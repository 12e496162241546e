#include "rules/statistics/crossed.hpp"

#include <algorithm>

#include "tests/rules/statistics/references.hpp"

namespace tenth::statistics {
namespace {

using testing::code_of;

std::vector<StudyReading> small_study() {
  std::vector<StudyReading> readings;
  for (const int part : {7, 3})
    for (const char* who : {"Kim", "Ari"})
      for (const int trial : {1, 2, 3})
        readings.push_back({part, who, trial, part * 100.0 + (*who == 'K' ? 10 : 0) + trial});
  return readings;
}

TEST(CrossedStudy, SortsReadingsByPartOperatorAndTrial) {
  auto readings = small_study();
  std::ranges::reverse(readings);
  const Crossed study = crossed(readings).value();
  EXPECT_EQ(study.parts(), 2U);
  EXPECT_EQ(study.operators(), 2U);
  EXPECT_EQ(study.trials(), 3U);
  EXPECT_EQ(study.part_number(0), 3);
  EXPECT_EQ(study.operator_name(0), "Ari");
  // From the first reading, 301, on: part 7 of Kim is 711, 712, 713.
  const Values cell = study.cell(1, 1);
  EXPECT_EQ(std::vector<double>(cell.begin(), cell.end()), (std::vector<double>{410, 411, 412}));
  EXPECT_EQ(study.of_part(0), (std::vector<double>{0, 1, 2, 10, 11, 12}));
  EXPECT_EQ(study.of_operator(0), (std::vector<double>{0, 1, 2, 400, 401, 402}));
  EXPECT_EQ(study.largest(), 713);
}

TEST(CrossedStudy, RefusesAMissingReadingAndNamesIt) {
  auto readings = small_study();
  std::erase_if(readings,
                [](const StudyReading& r) { return r.part == 7 && r.operator_name == "Ari" && r.trial == 2; });
  const auto refused = crossed(readings);
  EXPECT_EQ(code_of(refused), "missing");
  EXPECT_EQ(refused.error().message, "part 7, operator 'Ari', trial 2 has no reading");
}

TEST(CrossedStudy, RefusesAReadingThatIsThereTwice) {
  auto readings = small_study();
  readings.push_back({3, "Kim", 1, 5});
  const auto refused = crossed(readings);
  EXPECT_EQ(code_of(refused), "twice");
  EXPECT_EQ(refused.error().message, "part 3, operator 'Kim', trial 1 is there twice");
}

TEST(CrossedStudy, RefusesFewerThanTwoOfAKindAndSaysWhich) {
  const auto without = [](auto drop) {
    auto readings = small_study();
    std::erase_if(readings, drop);
    const auto refused = crossed(readings);
    EXPECT_EQ(code_of(refused), "too_few");
    return refused.error().remedy;
  };
  EXPECT_EQ(without([](const auto& r) { return r.part == 7; }), "plan at least two parts");
  EXPECT_EQ(without([](const auto& r) { return r.operator_name == "Kim"; }), "plan at least two operators");
  EXPECT_EQ(without([](const auto& r) { return r.trial > 1; }), "plan at least two trials");
  EXPECT_EQ(without([](const auto&) { return true; }), "plan at least two parts");
}

TEST(CrossedStudy, RefusesReadingsThatAreAllAlike) {
  auto readings = small_study();
  for (auto& reading : readings) reading.value = 83.01;
  EXPECT_EQ(code_of(crossed(readings)), "no_variation");
}

TEST(CrossedStudy, RefusesWhatIsNoNumber) {
  auto readings = small_study();
  readings[4].value = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(code_of(crossed(readings)), "no_number");
}

}  // namespace
}  // namespace tenth::statistics
