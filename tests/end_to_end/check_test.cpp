// Judging: sizes, forms, fits and spreads against numbers worked out by hand.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Check : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("g", {"--unit", "mm"});
  }
  void walk(const Words& round, const std::vector<std::string>& numbers, const std::string& with = "g") {
    done(round);
    for (const std::string& number : numbers) {
      const json reading = press(with, line(number));
      ASSERT_EQ(reading["state"], "kept") << reading;
    }
  }
  static json feature(const json& check, const std::string& name, int index = 1) {
    return pick(check["features"], {{"feature", name}, {"index", index}});
  }
  static json fit(const json& check, const std::string& name, int index = 1) {
    return pick(check["fits"], {{"fit", name}, {"index", index}});
  }
  // A bore of its own with this form key, read in the order top thrust, top pin, middle thrust, …
  json form(const std::string& keys, const std::vector<std::string>& numbers) {
    static int count = 0;
    std::string spec = inline_four;
    const std::string plain = "out_of_round = 0.010\ntaper = 0.012\n";
    spec.replace(spec.find(plain), plain.size(), plain + keys);
    engine(spec, "form" + std::to_string(++count));
    walk({"round", "bore"}, numbers);
    const Ran ran = tenth({"--json", "check"});
    return feature(json::parse(ran.out), "bore");
  }
};

TEST_F(Check, AFreshEngineIsIncompleteAndNotOut) {
  const json check = asked({"check"});
  EXPECT_EQ(check["engine"], "E1");
  EXPECT_EQ(check["verdict"], "incomplete");
  const json bore = feature(check, "bore", 4);
  EXPECT_EQ(bore["readings"], 0);
  EXPECT_EQ(bore["missing"], 6);
  EXPECT_EQ(bore["verdict"], "incomplete");
  for (const char* key : {"mean_mm", "min_mm", "max_mm", "out_of_round_mm", "taper_mm", "uncertainty_mm"}) {
    EXPECT_TRUE(bore[key].is_null()) << key;
  }
  EXPECT_EQ(check["features"].size(), 4U + 4U + 5U + 5U + 4U);
  EXPECT_EQ(check["fits"].size(), 4U + 5U);
  EXPECT_EQ(check["checks"].size(), 1U);
  EXPECT_EQ(check["spreads"].size(), 1U);
  done({"check"});
  EXPECT_EQ(tenth({"check", "--strict"}).status, 1);
}

TEST_F(Check, ABoreHasMeanFormAndVerdict) {
  walk({"round", "bore"}, {"86.010", "86.015", "86.012", "86.016", "86.018", "86.011"});
  const json bore = feature(asked({"check"}), "bore");
  EXPECT_EQ(bore["label"], "1");
  EXPECT_EQ(bore["stage"], "as found");
  EXPECT_EQ(bore["mean_mm"], 86.013666667);  // 516.082 / 6
  EXPECT_EQ(bore["min_mm"], 86.010);
  EXPECT_EQ(bore["max_mm"], 86.018);
  EXPECT_EQ(bore["out_of_round_mm"], 0.007);  // bottom: 86.018 less 86.011
  EXPECT_EQ(bore["out_of_round_by"], "same_level");
  EXPECT_EQ(bore["taper_mm"], 0.008);  // thrust: 86.018 less 86.010
  EXPECT_EQ(bore["taper_by"], "along_axis");
  EXPECT_EQ(bore["readings"], 6);
  EXPECT_EQ(bore["missing"], 0);
  EXPECT_EQ(bore["verdict"], "in");
  EXPECT_EQ(bore["reasons"], json::array());
}

TEST_F(Check, LimitsAreInclusiveAndAPicometrePastIsOut) {
  walk({"round", "main_journal"}, {"53.981", "54.000", "53.980999", "54.000001"});
  const json check = asked({"check"}, 1);
  EXPECT_EQ(feature(check, "main_journal", 1)["verdict"], "in");
  EXPECT_EQ(feature(check, "main_journal", 2)["verdict"], "in");
  const json low = feature(check, "main_journal", 3);
  EXPECT_EQ(low["verdict"], "out");
  const json reason = low["reasons"][0];
  for (const char* key : {"what", "value_mm", "limit_mm", "side", "verdict"}) EXPECT_TRUE(reason.contains(key)) << key;
  EXPECT_EQ(reason["value_mm"], 53.980999);
  EXPECT_EQ(reason["limit_mm"], 53.981);
  EXPECT_EQ(reason["verdict"], "out");
  EXPECT_EQ(feature(check, "main_journal", 4)["verdict"], "out");
  EXPECT_EQ(check["verdict"], "out");
}

TEST_F(Check, FormsAreMadeAsTheSpecSays) {
  const std::vector<std::string> numbers{"86.010", "86.015", "86.012", "86.016", "86.018", "86.011"};
  json bore =
      form("out_of_round_by = \"across_levels\"\n", {"86.010", "86.015", "86.012", "86.016", "86.013", "86.011"});
  EXPECT_EQ(bore["out_of_round_by"], "across_levels");
  EXPECT_EQ(bore["out_of_round_mm"], 0.006);  // pin 86.016 less thrust 86.010; at one level it would be 0.005
  bore = form("taper_by = \"ends\"\n", numbers);
  EXPECT_EQ(bore["taper_by"], "ends");
  EXPECT_EQ(bore["taper_mm"], 0.008);
  bore = form("taper_by = \"pairs\"\n", numbers);
  EXPECT_EQ(bore["taper_mm"], 0.003);  // 86.018 less 86.015
  bore = form("taper_by = \"level_means\"\n", numbers);
  EXPECT_EQ(bore["taper_mm"], 0.002);  // means 86.0125, 86.014, 86.0145
}

TEST_F(Check, EndsLooksAtTheEndsAlone) {
  const json bore = form("taper_by = \"ends\"\n", {"86.010", "86.010", "86.019", "86.014", "86.011", "86.012"});
  EXPECT_EQ(bore["taper_mm"], 0.002);
  EXPECT_EQ(bore["verdict"], "in");
}

TEST_F(Check, AFormPastItsLimitIsOutEvenWhereTheSizeIsIn) {
  walk({"round", "bore"}, {"86.010", "86.0201"});
  const json bore = feature(asked({"check"}, 1), "bore");
  EXPECT_EQ(bore["verdict"], "out") << "no further reading can heal it";
  EXPECT_EQ(bore["missing"], 4);
  EXPECT_EQ(bore["out_of_round_mm"], 0.0101);
  EXPECT_TRUE(bore["taper_mm"].is_null()) << "one level gives no taper";
}

TEST_F(Check, WhatFurtherReadingsCanHealWaits) {
  const json bore = form("taper_by = \"pairs\"\n", {"86.020", "86.020", "86.012", "86.012", "86.007"});
  EXPECT_EQ(bore["verdict"], "incomplete");  // 0.013 so far; the last reading may still bring it in
  done({"at", "bore", "1", "bottom", "pin"});
  press("g", line("86.009"));
  EXPECT_EQ(feature(asked({"check"}), "bore")["verdict"], "in");
}

TEST_F(Check, FormsThatAFeatureCannotGiveAreNull) {
  walk({"round", "main_bearing"}, {"54.040", "54.043"});
  const json bearing = feature(asked({"check"}), "main_bearing");
  EXPECT_EQ(bearing["out_of_round_mm"], 0.003);
  EXPECT_TRUE(bearing["taper_mm"].is_null());
  EXPECT_EQ(bearing["verdict"], "in");
}

TEST_F(Check, AFitByExtremesUsesTheLevelsNamed) {
  walk({"round", "bore"}, {"86.000", "86.005", "86.010", "86.014", "86.002", "86.003"});
  walk({"round", "piston"}, {"85.950"});
  const json clearance = fit(asked({"check"}), "piston_clearance");
  EXPECT_EQ(clearance["outside_index"], 1);
  EXPECT_EQ(clearance["min_mm"], 0.060);
  EXPECT_EQ(clearance["mean_mm"], 0.062);
  EXPECT_EQ(clearance["max_mm"], 0.064);
  EXPECT_EQ(clearance["lower_mm"], 0.045);
  EXPECT_EQ(clearance["upper_mm"], 0.075);
  EXPECT_EQ(clearance["target_mm"], 0.060);
  EXPECT_TRUE(clearance["uncertainty_mm"].is_null());
  EXPECT_TRUE(clearance["probability"].is_null());
  EXPECT_EQ(clearance["verdict"], "in");
  EXPECT_EQ(fit(asked({"check"}), "piston_clearance", 2)["verdict"], "incomplete");
}

TEST_F(Check, AFitByExtremesIsOutByOneOfThem) {
  walk({"round", "piston"}, {"85.945"});
  done({"at", "bore", "1", "middle", "thrust"});
  press("g", line("86.010"));
  done({"at", "bore", "1", "middle", "pin"});
  press("g", line("86.0201"));
  const json clearance = fit(asked({"check"}, 1), "piston_clearance");
  EXPECT_EQ(clearance["max_mm"], 0.0751);
  EXPECT_EQ(clearance["verdict"], "out");
}

TEST_F(Check, AFitByMeanWaitsUntilCompleteAndForgivesItsExtremes) {
  walk({"round", "main_journal"}, {"53.981"});
  done({"at", "main_bearing", "1", "vertical"});
  press("g", line("54.050"));
  EXPECT_EQ(fit(asked({"check"}), "main_clearance")["verdict"], "incomplete");  // 0.069 so far
  done({"at", "main_bearing", "1", "oblique"});
  press("g", line("54.036"));
  const json clearance = fit(asked({"check"}), "main_clearance");
  EXPECT_EQ(clearance["mean_mm"], 0.062);
  EXPECT_EQ(clearance["max_mm"], 0.069);
  EXPECT_EQ(clearance["verdict"], "in");
}

TEST_F(Check, ASpreadOfMeansIsJudgedWhenComplete) {
  walk({"round", "main_journal"}, {"53.990", "53.9905", "53.991", "53.9951"});
  EXPECT_EQ(asked({"check"})["spreads"][0]["verdict"], "incomplete");
  press("g", line("53.993"));
  const json spread = asked({"check"}, 1)["spreads"][0];
  EXPECT_EQ(spread["feature"], "main_journal");
  EXPECT_EQ(spread["spread_mm"], 0.0051);
  EXPECT_EQ(spread["limit_mm"], 0.005);
  EXPECT_EQ(spread["verdict"], "out");
}

TEST_F(Check, RodsThatShareAPinSitOnTheirOwnSeats) {
  engine(vee_eight, "V");
  gauge("inch", {"--unit", "in"});
  walk({"round", "crankpin", "--from", "2"}, {"2.0995", "2.0992"}, "inch");
  walk({"round", "rod_bearing", "--from", "L2"}, {"2.1020", "2.1018"}, "inch");
  const json check = asked({"check"});
  const json left = fit(check, "rod_clearance", 3);
  EXPECT_EQ(left["outside_index"], 2);
  EXPECT_EQ(left["mean_mm"], 0.0635);  // 2.1020 less 2.0995
  EXPECT_EQ(left["verdict"], "in");
  const json right = fit(check, "rod_clearance", 4);
  EXPECT_EQ(right["outside_index"], 2);
  EXPECT_EQ(right["mean_mm"], 0.06604);  // 2.1018 less 2.0992
  EXPECT_EQ(fit(check, "rod_clearance", 1)["verdict"], "incomplete");
}

TEST_F(Check, TheTextFitsEightyColumnsAndSaysWhatIsOut) {
  walk({"round", "bore"}, {"86.010", "86.015", "86.012", "86.016", "86.018", "86.011"});
  done({"at", "piston", "1"});
  press("g", line("85.963"));
  const Ran ran = tenth({"check"});
  EXPECT_EQ(ran.status, 1);
  std::size_t from = 0;
  while (from < ran.out.size()) {
    const std::size_t end = std::min(ran.out.find('\n', from), ran.out.size());
    long columns = 0;
    for (std::size_t i = from; i < end; ++i)
      columns += (static_cast<unsigned char>(ran.out[i]) & 0xC0U) != 0x80U ? 1 : 0;
    EXPECT_LE(columns, 80) << ran.out.substr(from, end - from);
    from = end + 1;
  }
  EXPECT_NE(ran.out.find("out"), std::string::npos);
  EXPECT_NE(ran.out.find("0.003 "), std::string::npos) << "by how much: " << ran.out;
  EXPECT_EQ(ran.out.find('\x1b'), std::string::npos) << "colour into a pipe";
}

TEST_F(Check, TheTextNeverSaysOutByNothing) {
  walk({"round", "main_journal"}, {"54.0004"});
  const Ran ran = tenth({"check"});
  EXPECT_EQ(ran.status, 1);
  EXPECT_NE(ran.out.find("0.0004 "), std::string::npos) << ran.out;
  EXPECT_EQ(ran.out.find("0.000 "), std::string::npos) << ran.out;
}

TEST_F(Check, StrictIsContentWhenAllIsIn) {
  engine(
      "title = \"one\"\nunit = \"mm\"\n[layout]\ncylinders = 1\nmains = 1\ncrankpins = 1\n[feature.bore]\nkind = "
      "\"inside\"\nlimits = [70.0, 70.02]\n",
      "one");
  walk({"round"}, {"70.010"});
  done({"check", "--strict"});
  EXPECT_EQ(asked({"check"})["verdict"], "in");
}

TEST_F(Check, AFeatureWithoutLimitsHasNoVerdict) {
  engine(
      "title = \"one\"\nunit = \"mm\"\n[layout]\ncylinders = 1\nmains = 1\ncrankpins = 1\n[feature.bore]\nkind = "
      "\"inside\"\n",
      "one");
  walk({"round"}, {"70.010"});
  EXPECT_TRUE(feature(asked({"check"}), "bore")["verdict"].is_null());
}

TEST_F(Check, OneSidedLimitsBindOneSide) {
  engine(
      "title = \"one\"\nunit = \"mm\"\n[layout]\ncylinders = 1\nmains = 1\ncrankpins = 1\n[feature.ring_gap_top]\nkind "
      "= \"gap\"\ncount = 2\nmin = 0.35\n",
      "one");
  walk({"round"}, {"0.70", "0.349"});
  const json check = asked({"check"}, 1);
  EXPECT_EQ(feature(check, "ring_gap_top", 1)["verdict"], "in");
  EXPECT_EQ(feature(check, "ring_gap_top", 2)["verdict"], "out");
}

}  // namespace
}  // namespace acceptance
