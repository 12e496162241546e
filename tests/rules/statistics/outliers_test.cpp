#include "rules/statistics/outliers.hpp"

#include "tests/rules/statistics/references.hpp"

namespace tenth::statistics {
namespace {

using testing::column;
using testing::expect_close;
using testing::Expected;

const Expected& outliers_expected() {
  static const Expected all = testing::expected("outliers_expected.json");
  return all;
}

TEST(Grubbs, FindsTheOutlierOfTheHandbook) {
  const auto values = column("grubbs_mass_spectrometer.csv", "value");
  const Expected want = outliers_expected().at("grubbs");
  const Farthest found = grubbs(values).value();
  EXPECT_EQ(values[found.index], 245.57);
  EXPECT_TRUE(found.outlier);
  expect_close(found.distance, want.at("G"), "G");
  EXPECT_NEAR(found.distance, want.at("published").at("G").get<double>(), 0.0001);  // printed cut, not rounded
  expect_close(found.critical, want.at("critical_two_sided_0.05"), "critical");
  expect_close(grubbs_beyond(found.distance, values.size()), want.at("p_two_sided_bonferroni"), "p", 1e-7);
  // One-sided at 5 % is two-sided at 10 %.
  EXPECT_NEAR(grubbs_critical(8, 0.1), want.at("published").at("critical_one_sided_0.05").get<double>(), 0.0005);
}

TEST(Grubbs, HasTheCriticalValuesOfTheComputedTable) {
  for (const auto& [count, row] : outliers_expected().at("grubbs_table").items()) {
    const auto n = static_cast<std::size_t>(std::stoi(count));
    expect_close(grubbs_critical(n, 0.05), row.at("two_sided_0.05"), count, 1e-12);
    expect_close(grubbs_critical(n, 0.01), row.at("two_sided_0.01"), count, 1e-12);
    expect_close(grubbs_critical(n, 0.10), row.at("one_sided_0.05"), count, 1e-12);
    expect_close(grubbs_critical(n, 0.02), row.at("one_sided_0.01"), count, 1e-12);
  }
}

TEST(Grubbs, HasTheCriticalValuesOfThePrintedTable) {
  for (const auto& row : outliers_expected().at("grubbs_table_published").at("rows")) {
    const auto n = row.at(0).get<std::size_t>();
    EXPECT_NEAR(grubbs_critical(n, 0.10), row.at(1).get<double>(), 0.006);  // two cells are printed one unit high
    EXPECT_NEAR(grubbs_critical(n, 0.05), row.at(2).get<double>(), 0.006);
    EXPECT_NEAR(grubbs_critical(n, 0.02), row.at(3).get<double>(), 0.006);
  }
}

TEST(Grubbs, TheCriticalDistanceIsWhereChanceReachesTheLevel) {
  for (const std::size_t n : {3U, 5U, 20U, 100U})
    EXPECT_NEAR(grubbs_beyond(grubbs_critical(n, 0.05), n), 0.05, 1e-9) << n;
  EXPECT_EQ(grubbs_beyond(0, 5), 1);
}

TEST(Grubbs, OnEitherSide) {
  const auto low = grubbs(std::vector<double>{83.010, 83.011, 83.009, 82.900, 83.010}).value();
  EXPECT_EQ(low.index, 3U);
  EXPECT_TRUE(low.outlier);
}

TEST(Grubbs, SoundReadingsStay) {
  EXPECT_FALSE(grubbs(std::vector<double>{83.010, 83.011, 83.009, 83.012, 83.010}).value().outlier);
  const auto alike = grubbs(std::vector<double>{83.01, 83.01, 83.01, 83.01}).value();
  EXPECT_EQ(alike.distance, 0);
  EXPECT_FALSE(alike.outlier);
}

TEST(Grubbs, TheThirdOfTwoAlikeIsAlwaysFar) {
  const auto found = grubbs(std::vector<double>{83.01, 83.01, 83.011}).value();
  EXPECT_EQ(found.index, 2U);
  EXPECT_TRUE(found.outlier);
  EXPECT_EQ(grubbs_beyond(2 / std::sqrt(3.0) * (1 + 1e-15), 3), 0);
}

TEST(GeneralizedEsd, FindsTheThreeHiddenOutliersOfTheHandbook) {
  const auto values = column("gesd_rosner.csv", "value");
  const Expected want = outliers_expected().at("gesd");
  const Outliers found = generalized_esd(values, 10).value();
  ASSERT_EQ(found.steps.size(), 10U);
  EXPECT_EQ(found.count, want.at("outliers").get<std::size_t>());
  for (std::size_t i = 0; i < 10; ++i) {
    const std::string step = "step " + std::to_string(i + 1);
    EXPECT_EQ(values[found.steps[i].index], want.at("removed_in_order").at(i).get<double>()) << step;
    expect_close(found.steps[i].distance, want.at("R").at(i), step);
    expect_close(found.steps[i].critical, want.at("lambda").at(i), step);
    EXPECT_NEAR(found.steps[i].distance, want.at("published").at("R").at(i).get<double>(), 0.001) << step;
    EXPECT_NEAR(found.steps[i].critical, want.at("published").at("lambda").at(i).get<double>(), 0.001) << step;
  }
  EXPECT_FALSE(found.steps[0].outlier);  // hidden by the third, which alone is beyond its critical distance
}

TEST(GeneralizedEsd, NeverTakesMoreThanAsked) {
  const auto values = column("gesd_rosner.csv", "value");
  EXPECT_EQ(generalized_esd(values, 2).value().count, 0U);  // the third would uncover them
  EXPECT_EQ(generalized_esd(values, 3).value().count, 3U);
  EXPECT_TRUE(generalized_esd(values, 0).value().steps.empty());
}

TEST(GeneralizedEsd, ReadingsAlikeHaveNone) {
  const Outliers none = generalized_esd(std::vector<double>(6, 83.01), 4).value();
  EXPECT_EQ(none.count, 0U);
  EXPECT_EQ(none.steps.size(), 4U);
}

}  // namespace
}  // namespace tenth::statistics
