// The NIST Statistical Reference Datasets: how many correct digits (log relative error, LRE) mean, standard deviation
// and F have. Against the certified values the decimal data allow no more than their rounding to binary64 leaves;
// against the exact results for the rounded data the arithmetic alone is judged.
#include <cmath>
#include <iostream>

#include "rules/statistics/one_way.hpp"
#include "tests/rules/statistics/references.hpp"

namespace tenth::statistics {
namespace {

using testing::Expected;
using testing::expected;

double correct_digits(double got, const Expected& want_text) {
  const double want = std::stod(want_text.get<std::string>());
  if (got == want) return 15;
  return std::min(15.0, -std::log10(std::abs(got - want) / std::abs(want)));
}

std::vector<double> numbers(const Expected& texts) {
  std::vector<double> values;
  for (const auto& text : texts) values.push_back(std::stod(text.get<std::string>()));
  return values;
}

/// `base`.tenths as the nearest double, the decimal digits never passing through sums.
double decimal(const std::string& base, int tenths) {
  return std::stod(base + "." + std::to_string(tenths));
}

std::vector<double> univariate(const std::string& name, const Expected& set) {
  if (set.contains("values")) return numbers(set.at("values"));
  std::vector<double> values;
  if (name == "PiDigits") {
    for (const char c : set.at("digits").get<std::string>()) values.push_back(c - '0');
    return values;
  }
  const std::string base = name == "NumAcc2" ? "1" : name == "NumAcc3" ? "1000000" : "10000000";
  values.push_back(decimal(base, 2));
  for (int i = 0; i < 500; ++i) values.insert(values.end(), {decimal(base, 1), decimal(base, 3)});
  return values;
}

/// Fewest correct digits against the certified mean and deviation. NumAcc3 and NumAcc4 lose what the rounding of
/// 1000000.1 to a double loses; no program that is given doubles can do better.
const std::map<std::string, std::pair<double, double>> kUnivariateFloors = {
    {"Lew", {15, 14}},        {"Lottery", {15, 14}},  {"Mavro", {15, 13}},
    {"Michelso", {15, 13.8}}, {"NumAcc1", {15, 15}},  {"NumAcc2", {14, 15}},
    {"NumAcc3", {15, 9.4}},   {"NumAcc4", {15, 8.2}}, {"PiDigits", {14, 14}}};

TEST(Certified, MeansAndStandardDeviations) {
  const Expected sets = expected("strd_univariate.json").at("datasets");
  ASSERT_EQ(sets.size(), kUnivariateFloors.size());
  for (const auto& [name, set] : sets.items()) {
    const auto values = univariate(name, set);
    ASSERT_EQ(values.size(), set.at("n").get<std::size_t>()) << name;
    const Summary s = describe(values).value();
    const Expected& certified = set.at("certified");
    const double mean = correct_digits(s.mean, certified.at("mean")),
                 deviation = correct_digits(s.deviation, certified.at("sd"));
    std::cout << "LRE " << name << ": mean " << mean << ", standard deviation " << deviation;
    EXPECT_GE(mean, kUnivariateFloors.at(name).first) << name;
    EXPECT_GE(deviation, kUnivariateFloors.at(name).second) << name;
    if (set.contains("exact_on_binary64_inputs")) {
      const double exact = correct_digits(s.deviation, set.at("exact_on_binary64_inputs").at("sd"));
      std::cout << " (of the rounded data " << exact << ")";
      EXPECT_GE(exact, 14.8) << name;
    }
    std::cout << "\n";
  }
}

std::vector<std::vector<double>> groups(const std::string& name, const Expected& set) {
  std::vector<std::vector<double>> found;
  if (set.contains("data")) {
    for (const auto& [treatment, values] : set.at("data").items()) found.push_back(numbers(values));
    return found;
  }
  const int which = name.back() - '1';
  const std::string base = which < 3 ? "1" : which < 6 ? "1000000" : "1000000000000";
  const int pairs = which % 3 == 0 ? 10 : which % 3 == 1 ? 100 : 1000;
  for (int treatment = 1; treatment <= 9; ++treatment) {
    const int middle = treatment == 1 ? 4 : treatment % 2 == 0 ? 3 : 5;
    auto& group = found.emplace_back(1, decimal(base, middle));
    for (int i = 0; i < pairs; ++i) group.insert(group.end(), {decimal(base, middle - 1), decimal(base, middle + 1)});
  }
  return found;
}

/// Fewest correct digits of F against the certified value. Every set but SmLs01 to 03 is held back by the rounding of
/// its decimal data to doubles.
const std::map<std::string, double> kAnovaFloors = {
    {"SiRstv", 12.8}, {"AtmWtAg", 10.1}, {"SmLs01", 14.5}, {"SmLs02", 14.4}, {"SmLs03", 14.5}, {"SmLs04", 10.4},
    {"SmLs05", 10.2}, {"SmLs06", 10.1},  {"SmLs07", 4.4},  {"SmLs08", 4.1},  {"SmLs09", 4.1}};

TEST(Certified, AnalysisOfVariance) {
  const Expected sets = expected("strd_anova.json").at("datasets");
  ASSERT_EQ(sets.size(), kAnovaFloors.size());
  for (const auto& [name, set] : sets.items()) {
    const OneWay result = one_way(groups(name, set)).value();
    const Expected &certified = set.at("certified"), &rounded = set.at("exact_on_binary64_inputs");
    EXPECT_EQ(result.between.freedom, certified.at("df_between").get<int>()) << name;
    EXPECT_EQ(result.within.freedom, certified.at("df_within").get<int>()) << name;
    const double f = correct_digits(result.between.f.value(), certified.at("F"));
    const double exact = correct_digits(*result.between.f, rounded.at("F"));
    std::cout << "LRE " << name << ": F " << f << " (of the rounded data " << exact << ")\n";
    EXPECT_GE(f, kAnovaFloors.at(name)) << name;
    EXPECT_GE(exact, 14.5) << name;
    EXPECT_GE(correct_digits(result.residual_deviation, rounded.at("residual_sd")), 14) << name;
    EXPECT_GE(correct_digits(result.r_squared.value(), certified.at("r_squared")), kAnovaFloors.at(name) - 0.2) << name;
  }
}

/// The handbook prints one probe's figures to five places.
void expect_printed(double got, const std::string& probe, const std::string& level, const std::string& run) {
  if (probe != "2362") return;
  const Expected printed = expected("nist_mpc61_expected.json").at("published_probe_2362");
  EXPECT_NEAR(got, printed.at(level).at(run).get<double>(), 0.5e-5) << level << " " << run;
}

// tests/references/nist_mpc61*: every probe's repeatability, day-to-day and run-to-run standard deviation, from
// readings grouped by what is held fixed.
TEST(Certified, LevelsOfAGaugeStudyOverDaysAndRuns) {
  const Expected probes = expected("nist_mpc61_expected.json").at("probes");
  std::map<std::string, std::map<std::string, std::map<std::string, std::vector<double>>>> means, deviations;
  for (const auto& row : testing::rows("nist_mpc61.csv")) {
    means[row.at("probe")][row.at("run")][row.at("wafer")].push_back(testing::number(row, "average"));
    deviations[row.at("probe")][row.at("run")]["all"].push_back(testing::number(row, "stddev"));
  }
  ASSERT_EQ(probes.size(), 5U);
  for (const auto& [probe, want] : probes.items()) {
    std::map<std::string, std::vector<double>> run_means;
    for (const auto& [run, wafers] : means.at(probe)) {
      std::vector<std::vector<double>> days;
      for (const auto& [wafer, values] : wafers) {
        days.push_back(values);
        run_means[wafer].push_back(describe(values).value().mean);
      }
      const double between_days = one_way(days).value().residual_deviation;
      testing::expect_close(between_days, want.at("level2").at("run" + run), probe + " days");
      expect_printed(between_days, probe, "level2", "run" + run);
      const Summary s = describe(deviations.at(probe).at(run).at("all")).value();
      const double mean_square = s.mean * s.mean + s.squares / static_cast<double>(s.count);
      testing::expect_close(std::sqrt(mean_square), want.at("level1").at("run" + run), probe + " repeats");
      expect_printed(std::sqrt(mean_square), probe, "level1", "run" + run);
    }
    std::vector<std::vector<double>> runs;
    for (const auto& [wafer, values] : run_means) runs.push_back(values);
    testing::expect_close(one_way(runs).value().residual_deviation, want.at("level3").at("pooled"), probe + " runs");
  }
}

}  // namespace
}  // namespace tenth::statistics
