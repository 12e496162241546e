#include "rules/statistics/study.hpp"

#include "rules/statistics/distributions.hpp"
#include "rules/statistics/study_shares.hpp"
#include "tests/rules/statistics/references.hpp"

namespace tenth::statistics {
namespace {

using testing::expect_close;
using testing::Expected;

// The data files grr_*.csv name where each study was published; grr_expected.json holds what comes out.
const std::vector<std::string> kStudies = {"manual", "thermal", "iso22514", "helicopter", "paper"};

const Expected& want_of(const std::string& name) {
  static const Expected all = testing::expected("grr_expected.json");
  return all.at(name);
}

TEST(StudyAnova, SumsOfSquaresAndTests) {
  for (const auto& name : kStudies) {
    const StudyAnova got = study_anova(testing::study(name));
    const Expected& want = want_of(name);
    for (const auto& [source, key] : {std::pair(&got.parts, "part"), std::pair(&got.operators, "appraiser"),
                                      std::pair(&got.interaction, "interaction"),
                                      std::pair(&got.repeatability, "equipment"), std::pair(&got.total, "total")}) {
      EXPECT_EQ(source->freedom, want.at("df").at(key).get<double>()) << name << key;
      expect_close(source->squares, want.at("sum_squares").at(key), name + key, 1e-11);
    }
    expect_close(got.pooled.mean_square(), want.at("mean_squares").at("pooled"), name, 1e-11);
    expect_close(got.interaction.f.value(), want.at("F_interaction_over_equipment"), name);
    expect_close(got.interaction.p.value(), want.at("p_interaction"), name);
    expect_close(got.with_interaction.parts_test.f.value(), want.at("F_vs_interaction").at("part"), name);
    expect_close(got.with_interaction.operators_test.f.value(), want.at("F_vs_interaction").at("appraiser"), name);
    expect_close(got.without.parts_test.f.value(), want.at("F_vs_pooled").at("part"), name);
    expect_close(got.without.operators_test.f.value(), want.at("F_vs_pooled").at("appraiser"), name);
  }
}

void expect_components(const Components& got, const Expected& want, const std::string& name) {
  for (const auto& [component, key] :
       {std::pair(&got.ev, "repeatability"), std::pair(&got.av, "appraiser"), std::pair(&got.iv, "interaction"),
        std::pair(&got.grr, "grr"), std::pair(&got.pv, "part"), std::pair(&got.tv, "total")}) {
    const std::string what = name + " " + key;
    if (!want.at("variance").contains(key)) continue;  // no interaction where it is pooled
    expect_close(component->variance, want.at("variance").at(key), what);
    expect_close(component->share.sigma, want.at("sigma").at(key), what);
    expect_close(component->share.of_total.value(), want.at("percent_study_variation").at(key), what);
    if (want.at("variance_unclamped").contains(key))
      expect_close(component->computed, want.at("variance_unclamped").at(key), what);
  }
  EXPECT_EQ(got.categories, want.at("ndc_1.41").at("truncated").get<double>()) << name;
}

TEST(StudyAnova, ComponentsWithInteractionAndPooled) {
  for (const auto& name : kStudies) {
    const StudyAnova got = study_anova(testing::study(name));
    expect_components(got.with_interaction, want_of(name).at("with_interaction"), name + " with interaction");
    expect_components(got.without, want_of(name).at("interaction_pooled"), name + " pooled");
    EXPECT_EQ(got.without.iv.variance, 0) << name;
  }
}

// The manual's printed report.
TEST(StudyAnova, ThePrintedFiguresOfTheManual) {
  const Expected& want = want_of("manual").at("published").at("anova");
  const StudyAnova got = study_anova(testing::study("manual"));
  EXPECT_TRUE(got.pool);
  for (const auto& [component, key] : {std::pair(&got.best().ev, "EV"), std::pair(&got.best().av, "AV"),
                                       std::pair(&got.best().grr, "GRR"), std::pair(&got.best().pv, "PV")})
    EXPECT_NEAR(component->share.of_total.value(), want.at("percent_TV").at(key).get<double>(), 0.005) << key;
  EXPECT_EQ(got.best().categories, want.at("ndc").get<double>());
  EXPECT_NEAR(got.parts.squares, want.at("SS").at("part").get<double>(), 0.00005);
  EXPECT_NEAR(got.interaction.mean_square(), want.at("MS").at("interaction").get<double>(), 0.000005);
}

// ISO 22514-7:2012 tables A.5 and A.6, rounded and in part worked from rounded figures.
TEST(StudyAnova, ThePrintedFiguresOfTheStandard) {
  const Expected& want = want_of("iso22514").at("published");
  const StudyAnova got = study_anova(testing::study("iso22514"));
  EXPECT_NEAR(got.interaction.f.value(), want.at("F_interaction").get<double>(), 0.001);
  EXPECT_NEAR(fisher_point(0.05, 18, 60), want.at("F_crit_interaction_0.95_18_60").get<double>(), 0.0005);
  EXPECT_NEAR(got.without.operators_test.f.value(), want.at("F_vs_pooled").at("appraiser").get<double>(), 0.001);
  EXPECT_NEAR(got.without.parts_test.f.value(), want.at("F_vs_pooled").at("part").get<double>(), 1);
  EXPECT_NEAR(got.without.pv.variance, want.at("variance_part_pooled").get<double>(), 0.001);
  EXPECT_NEAR(got.without.av.share.sigma, want.at("sigma_pooled").at("u_AV").get<double>(), 0.00002);
  EXPECT_NEAR(got.without.ev.share.sigma, want.at("sigma_pooled").at("u_EVO").get<double>(), 0.00005);
  EXPECT_NEAR(got.with_interaction.iv.share.sigma, want.at("unpooled").at("u_IA").get<double>(), 0.00002);
  EXPECT_NEAR(got.with_interaction.av.share.sigma, want.at("unpooled").at("u_AV").get<double>(), 0.00002);
}

// The textbook's own output.
TEST(StudyAnova, ThePrintedFiguresOfTheHelicopters) {
  const Expected& want = want_of("helicopter").at("published");
  const StudyAnova got = study_anova(testing::study("helicopter"));
  EXPECT_NEAR(got.interaction.p.value(), want.at("p_interaction").get<double>(), 0.000005);
  for (const auto& [component, key] :
       {std::pair(&got.without.ev, "repeatability"), std::pair(&got.without.av, "reproducibility"),
        std::pair(&got.without.grr, "grr"), std::pair(&got.without.pv, "part"), std::pair(&got.without.tv, "total")}) {
    EXPECT_NEAR(component->variance, want.at("variance_pooled").at(key).get<double>(), 0.00005) << key;
    EXPECT_NEAR(component->share.sigma, want.at("sigma_pooled").at(key).get<double>(), 0.5e-8) << key;
  }
  EXPECT_EQ(got.best().categories, want.at("ndc").get<double>());
}

TEST(StudyAnova, KeepsOnlyAnInteractionThatMayBeThere) {
  EXPECT_FALSE(study_anova(testing::study("thermal")).pool);
  for (const auto* name : {"manual", "iso22514", "helicopter", "paper"})
    EXPECT_TRUE(study_anova(testing::study(name)).pool) << name;
}

TEST(StudyAnova, AWholeIsTheSumOfItsParts) {
  for (const auto& name : kStudies) {
    const StudyAnova got = study_anova(testing::study(name));
    for (const Components* all : {&got.with_interaction, &got.without}) {
      expect_close(all->grr.computed, all->ev.computed + all->av.computed + all->iv.computed, name);
      expect_close(all->tv.computed, all->grr.computed + all->pv.computed, name);
    }
  }
}

TEST(StudyAnova, TheIntervalOfRepeatabilityIsExact) {
  const Component ev = study_anova(testing::study("thermal")).with_interaction.ev;
  EXPECT_NEAR(ev.interval.lower, 30.666666666667 / chi_squared_point(0.025, 60), 1e-10);
  EXPECT_NEAR(ev.interval.upper, 30.666666666667 / chi_squared_point(0.975, 60), 1e-10);
}

TEST(StudyAnova, EveryIntervalHoldsItsComponent) {
  for (const auto& name : kStudies) {
    const StudyAnova got = study_anova(testing::study(name));
    for (const Components* all : {&got.with_interaction, &got.without})
      for (const Component* c : {&all->ev, &all->av, &all->iv, &all->grr, &all->pv, &all->tv})
        EXPECT_TRUE(c->interval.holds(c->variance)) << name;
    EXPECT_GT(got.best().pv.interval.lower, 0) << name;
  }
}

void expect_average_and_range(const AverageAndRange& got, const Expected& want, const std::string& name) {
  expect_close(got.k1, want.at("k1"), name);
  expect_close(got.k2, want.at("k2"), name);
  expect_close(got.k3, want.at("k3"), name);
  expect_close(got.mean_range, want.at("rbarbar"), name);
  for (const auto& [share, key] : {std::pair(&got.ev, "EV"), std::pair(&got.av, "AV"), std::pair(&got.grr, "GRR"),
                                   std::pair(&got.pv, "PV"), std::pair(&got.tv, "TV")}) {
    expect_close(share->sigma, want.at(key), name + key);
    if (want.at("percent_TV").contains(key))
      expect_close(share->of_total.value(), want.at("percent_TV").at(key), name + key);
  }
  EXPECT_EQ(got.categories, want.at("ndc_1.41").at("truncated").get<double>()) << name;
}

TEST(AverageAndRangeMethod, WithTheFactorsAsPrinted) {
  for (const auto* name : {"manual", "thermal", "iso22514", "helicopter"})
    expect_average_and_range(average_and_range(testing::study(name)), want_of(name).at("average_range_printed_K"),
                             name);
}

// The printed figures are worked from rounded ones: 5e-5 in sigma, 0.02 in per cent.
TEST(AverageAndRangeMethod, ThePrintedFiguresOfTheManual) {
  const Expected& want = want_of("manual").at("published").at("average_range");
  const AverageAndRange got = average_and_range(testing::study("manual"));
  for (const auto& [share, key] : {std::pair(&got.ev, "EV"), std::pair(&got.av, "AV"), std::pair(&got.grr, "GRR"),
                                   std::pair(&got.pv, "PV"), std::pair(&got.tv, "TV")}) {
    EXPECT_NEAR(share->sigma, want.at(key).get<double>(), 5e-5) << key;
    if (share == &got.tv) continue;  // its own share is not printed
    EXPECT_NEAR(*share->of_total, want.at("percent").at(key).get<double>(), 0.02) << key;
  }
  EXPECT_EQ(got.categories, want.at("ndc").get<double>());
}

TEST(AverageAndRangeMethod, NamesTheCellThatScattersTooFar) {
  const Expected& want = want_of("manual").at("average_range_exact_d2").at("UCL_R");
  const AverageAndRange got = average_and_range(testing::study("manual"));
  expect_close(got.range_limit, want.at("value"), "limit");
  ASSERT_EQ(got.wide.size(), 1U);
  EXPECT_EQ(got.wide[0].operator_name, "B");
  EXPECT_EQ(got.wide[0].part, 4);
  EXPECT_NEAR(got.wide[0].range, 1.02, 1e-12);
  for (const auto* name : {"thermal", "iso22514", "helicopter"})
    EXPECT_TRUE(average_and_range(testing::study(name)).wide.empty());
}

TEST(AverageAndRangeMethod, OperatorsAlikeHaveNoVariation) {
  std::vector<StudyReading> readings;
  for (const int part : {1, 2})
    for (const char* who : {"A", "B"})
      for (const int trial : {1, 2}) readings.push_back({part, who, trial, 10.0 * part + trial});
  const AverageAndRange got = average_and_range(crossed(readings).value());
  EXPECT_EQ(got.av.sigma, 0);
  EXPECT_EQ(got.grr.sigma, got.ev.sigma);
}

TEST(Study, PercentOfToleranceIsSixSigmasOfIt) {
  const Crossed study = testing::study("manual");
  EXPECT_EQ(average_and_range(study).grr.of_tolerance, std::nullopt);
  const AverageAndRange ranges = average_and_range(study, 8);
  EXPECT_NEAR(ranges.grr.of_tolerance.value(), 100 * 6 * ranges.grr.sigma / 8, 1e-12);
  const Share grr = study_anova(study, 8).with_interaction.grr.share;
  EXPECT_NEAR(grr.of_tolerance.value(), 100 * 6 * grr.sigma / 8, 1e-12);
}

/// Each part always reads the same: a gauge too coarse to show its own scatter.
TEST(Study, WithoutAnyScatterThereAreNoCategories) {
  std::vector<StudyReading> readings;
  for (const int part : {1, 2, 3})
    for (const char* who : {"A", "B"})
      for (const int trial : {1, 2}) readings.push_back({part, who, trial, 83.0 + 0.01 * part});
  const Crossed study = crossed(readings).value();
  EXPECT_EQ(average_and_range(study).categories, std::nullopt);
  EXPECT_EQ(average_and_range(study).pv.of_total, 100);
  const StudyAnova anova = study_anova(study);
  EXPECT_TRUE(anova.pool);
  EXPECT_EQ(anova.interaction.f, std::nullopt);
  EXPECT_EQ(anova.best().grr.variance, 0);
  EXPECT_EQ(anova.best().categories, std::nullopt);
  EXPECT_NEAR(anova.best().pv.share.sigma, 0.01, 1e-12);  // of 83.01, 83.02, 83.03
}

TEST(Study, CategoriesAreOnePointFourOneTimesTheRatioCutOff) {
  EXPECT_EQ(distinct_categories(7.08, 1), 9);  // 9.98; with root two it would be 10.01
  EXPECT_EQ(distinct_categories(7.1, 1), 10);
  EXPECT_EQ(distinct_categories(0, 1), 0);
  EXPECT_EQ(distinct_categories(1, 0), std::nullopt);
}

TEST(LimitRatio, ByTheRuleOfTen) {
  EXPECT_EQ(limit_ratio(0.020, 0.002).value().adequacy, Adequacy::good);
  EXPECT_EQ(limit_ratio(0.020, 0.0021).value().adequacy, Adequacy::usable);
  EXPECT_EQ(limit_ratio(0.020, 0.004).value().adequacy, Adequacy::usable);
  EXPECT_EQ(limit_ratio(0.020, 0.0041).value().adequacy, Adequacy::too_coarse);
  EXPECT_NEAR(limit_ratio(0.020, 0.004).value().ratio, 5, 1e-12);
}

TEST(LimitRatio, NoneWithoutWidthOrUncertainty) {
  EXPECT_FALSE(limit_ratio(0.020, 0));
  EXPECT_FALSE(limit_ratio(0, 0.001));
  EXPECT_FALSE(limit_ratio(-0.020, 0.001));
}

}  // namespace
}  // namespace tenth::statistics
