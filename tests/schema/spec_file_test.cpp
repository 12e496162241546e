#include "schema/spec/spec_file.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "tests/schema/spec_samples.hpp"

namespace tenth {
namespace {

using Names = std::vector<std::string>;

Length mm(const char* text) {
  return length_from_decimal(text, Unit::mm).value();
}
Length in(const char* text) {
  return length_from_decimal(text, Unit::in).value();
}

Spec whole() {
  return parse_spec(kWhole, "demo.toml").value();
}

TEST(SpecFile, ReadsTheEngine) {
  const Spec spec = whole();
  EXPECT_EQ(spec.title, "Demo: inline six, 2.6 litre");
  EXPECT_EQ(spec.unit, Unit::mm);
  EXPECT_EQ(spec.layout.cylinders, 6);
  EXPECT_EQ(spec.layout.mains, 7);
  EXPECT_EQ(spec.layout.crankpins, 6);
  EXPECT_EQ(spec.layout.viewed_from, "front");
  EXPECT_EQ(spec.layout.main_labels.back(), "G");
  ASSERT_EQ(spec.facts.size(), 2U);
  EXPECT_EQ(spec.facts.at(0), (std::pair<std::string, std::string>("use", "endurance, naturally aspirated")));
  EXPECT_EQ(spec.facts.at(1).first, "fuel");  // in the order of the file
  EXPECT_EQ(spec.materials.at("our iron"), Expansion{10'800'000});
}

TEST(SpecFile, KeepsTheOrderOfTheFile) {
  const Spec spec = whole();
  Names names;
  for (const auto& feature : spec.features) names.push_back(feature.name);
  EXPECT_EQ(names, (Names{"piston", "bore", "main_journal", "end_play", "lifter_bore", "oil_feed_clear"}));
}

TEST(SpecFile, ReadsAFeature) {
  const Spec spec = whole();
  const Feature& bore = *spec.find("bore");
  EXPECT_EQ(bore.count_by, CountBy::cylinders);
  EXPECT_EQ(bore.count(), 6);
  EXPECT_EQ(bore.labels, (Names{"a", "b", "c", "d", "e", "f"}));
  EXPECT_EQ(bore.kind, Kind::inside);
  EXPECT_EQ(bore.size_text, "83 H7");
  EXPECT_EQ(bore.limits, (Limits{mm("83"), mm("83.035")}));
  EXPECT_EQ(bore.levels, (Names{"top", "middle", "bottom"}));
  EXPECT_EQ(bore.axes, (Names{"thrust", "pin"}));
  EXPECT_EQ(bore.out_of_round, mm("0.010"));
  EXPECT_EQ(bore.taper, mm("0.012"));
  EXPECT_EQ(bore.out_of_round_by, OutOfRoundBy::across_levels);
  EXPECT_EQ(bore.taper_by, TaperBy::level_means);
  EXPECT_EQ(bore.window, (Limits{mm("82.5"), mm("83.5")}));
  EXPECT_EQ(bore.repeat, mm("0.010"));
  EXPECT_EQ(bore.where, "caps at torque, plates fitted");
  EXPECT_EQ(bore.fastest, Fastest::level);
  EXPECT_EQ(bore.presses, 3);
  EXPECT_EQ(bore.material, "our iron");
  EXPECT_EQ(bore.source, "piston maker's sheet for this build");
}

TEST(SpecFile, ReadsLimitsInTheirForms) {
  const Spec spec = whole();
  EXPECT_EQ(spec.find("piston")->limits, (Limits{mm("82.95"), in("3.267")}));
  EXPECT_EQ(spec.find("main_journal")->limits, (Limits{mm("59.98"), {}}));
  EXPECT_EQ(spec.find("end_play")->limits, (Limits{{}, mm("0.25")}));
  EXPECT_FALSE(spec.find("lifter_bore")->limits.any());
}

TEST(SpecFile, LabelsComeFromTheLayout) {
  const Spec spec = whole();
  EXPECT_EQ(spec.find("piston")->labels, spec.layout.labels);
  EXPECT_EQ(spec.find("main_journal")->labels, spec.layout.main_labels);
  EXPECT_EQ(spec.find("lifter_bore")->labels.at(11), "12");
  EXPECT_EQ(spec.find("end_play")->labels, (Names{"1"}));
}

TEST(SpecFile, ReadsChecksFitsAndSpreads) {
  const Spec spec = whole();
  EXPECT_EQ(spec.find("oil_feed_clear")->before, (Names{"piston", "bore"}));
  const Fit& fit = spec.fits.at(0);
  EXPECT_EQ(fit.name, "piston_clearance");
  EXPECT_EQ(fit.inside, "bore");
  EXPECT_EQ(fit.outside, "piston");
  EXPECT_EQ(fit.limits, (Limits{mm("0.045"), mm("0.065")}));
  EXPECT_EQ(fit.target, mm("0.05"));
  EXPECT_EQ(fit.judge, JudgeBy::mean);
  EXPECT_EQ(fit.inside_levels, (Names{"middle"}));
  EXPECT_EQ(fit.inside_axes, (Names{"thrust"}));
  EXPECT_TRUE(fit.outside_levels.empty());
  EXPECT_EQ(fit.couples.size(), 6U);
  EXPECT_EQ(fit.couples.at(3), (Couple{4, 4, ""}));
  EXPECT_EQ(spec.spreads.at(0).feature, "main_journal");
  EXPECT_EQ(spec.spreads.at(0).limit, mm("0.005"));
  EXPECT_EQ(spec.spreads.at(0).by, SpreadBy::readings);
}

TEST(SpecFile, DefaultsAreTheTrades) {
  const Spec spec =
      parse_spec(
          "[feature.bore]\nkind = "
          "'inside'\n[fit.x]\ninside='bore'\noutside='p'\n[feature.p]\nkind='outside'\n[spread.p]\nlimit='1 um'",
          "f")
          .value();
  const Feature& bore = *spec.find("bore");
  EXPECT_EQ(bore.out_of_round_by, OutOfRoundBy::same_level);
  EXPECT_EQ(bore.taper_by, TaperBy::along_axis);
  EXPECT_EQ(bore.fastest, Fastest::axis);
  EXPECT_EQ(bore.presses, 1);
  EXPECT_FALSE(bore.window || bore.repeat || bore.taper || bore.out_of_round);
  EXPECT_EQ(spec.fits.at(0).judge, JudgeBy::extremes);
  EXPECT_EQ(spec.spreads.at(0).by, SpreadBy::means);
}

TEST(SpecFile, RodsCoupleThroughThePinsTheyShare) {
  const Fit fit = parse_spec(kShared, "f").value().fits.at(0);
  EXPECT_EQ(fit.couples, (std::vector<Couple>{{1, 1, "rear"}, {2, 2, "rear"}, {3, 2, "front"}, {4, 1, "front"}}));
  EXPECT_EQ(fit.seats, (Names{"front", "rear"}));
  EXPECT_EQ(fit.limits, (Limits{in("0.0014"), in("0.0024")}));
}

TEST(SpecFile, WithoutSeatsARodUsesTheWholePin) {
  std::string text = kShared;
  text.erase(text.find("seats"), text.find("limits") - text.find("seats"));
  EXPECT_EQ(parse_spec(text, "f").value().fits.at(0).couples.at(3), (Couple{4, 1, ""}));
}

TEST(SpecFile, PinsCoupleEvenWhereCountsAreEqual) {
  const Spec spec = parse_spec(
                        "layout = {cylinders = 2, crankpins = 2, pins = [['2'], "
                        "['1']]}\n[feature.r]\nkind='inside'\ncount='cylinders'\n[feature.c]\nkind='outside'\ncount='"
                        "crankpins'\n[fit.f]\ninside='r'\noutside='c'",
                        "f")
                        .value();
  EXPECT_EQ(spec.fits.at(0).couples, (std::vector<Couple>{{1, 2, ""}, {2, 1, ""}}));
}

/// The upper limit written as the bare number `literal`, after `before` on its line.
Length bare(const std::string& literal, const std::string& before = "") {
  return *parse_spec("unit = 'mm'\r\n[feature.'é']\r\nkind = 'gap'\r\n[feature]\r\n" + before +
                         "x = { kind = 'gap', max = " + literal + "} # 9",
                     "f")
              .value()
              .find("x")
              ->limits.upper;
}

TEST(SpecFile, BareNumbersAreReadAsWritten) {
  EXPECT_EQ(bare("0.1"), mm("0.1"));
  EXPECT_EQ(bare("83"), mm("83"));
  EXPECT_EQ(bare("83.000000001"), mm("83.000000001"));
  EXPECT_EQ(bare("99999.999999999").pm(), 99'999'999'999'999);  // more digits than a double has
  EXPECT_EQ(bare("8_3.0_1"), mm("83.01"));
  EXPECT_EQ(bare("1.5e-3"), mm("0.0015"));
  EXPECT_EQ(bare("+2 "), mm("2"));
  EXPECT_EQ(bare("0.5", "\t'éµ' = { kind = 'gap' }\n  "), mm("0.5"));
}

TEST(SpecFile, ColumnsCountCharactersAndSkipTheMark) {
  EXPECT_EQ(*parse_spec("\xEF\xBB\xBFunit='mm'\nfeature = { 'ééé' = { kind = 'gap', max = 0.75 } }", "f")
                 .value()
                 .features.at(0)
                 .limits.upper,
            mm("0.75"));
  EXPECT_EQ(*parse_spec("\xEF\xBB\xBF"
                        "feature.x = { kind = 'gap', max = \"1 mm\" }",
                        "f")
                 .value()
                 .features.at(0)
                 .limits.upper,
            mm("1"));
}

TEST(SpecFile, BareTextIsInTheSpecsUnitToo) {
  const Spec spec = parse_spec("unit = 'in'\n[feature.b]\nkind='inside'\nlimits=['3.2678', '83.01 mm']", "f").value();
  EXPECT_EQ(spec.features.at(0).limits, (Limits{in("3.2678"), mm("83.01")}));
}

TEST(SpecFile, TheExampleOfTheFormatPageIsRight) {
  std::ifstream file(TENTH_SOURCE_DIR "/schema/spec.md");
  std::string page((std::istreambuf_iterator<char>(file)), {});
  const auto begin = page.find("```toml\n") + 8;
  const auto spec = parse_spec(page.substr(begin, page.rfind("```") - begin), "spec.md");
  ASSERT_TRUE(spec) << spec.error().message;
  EXPECT_EQ(spec->fits.at(1).couples, (std::vector<Couple>{{1, 1, "left"}, {2, 1, "right"}}));
}

}  // namespace
}  // namespace tenth
