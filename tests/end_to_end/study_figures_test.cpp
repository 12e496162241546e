// The figures of a gauge study and of a chart, held against sums made by hand.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

// By part, operator (ann, bo) and trial, in mm.
constexpr const char* shown[3][2][2] = {{{"85.946", "85.947"}, {"85.947", "85.948"}},
                                        {{"85.950", "85.949"}, {"85.952", "85.951"}},
                                        {{"85.955", "85.954"}, {"85.954", "85.956"}}};

class StudyFigures : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("mic", {"--unit", "mm"});
  }
};

TEST_F(StudyFigures, OfPartsByOperatorsByTrials) {
  for (const char* name : {"ann", "bo"}) done({"operator", "add", name});
  done({"study", "plan", "s", "--gauge", "mic", "--feature", "piston", "--operators", "ann,bo", "--parts", "3",
        "--trials", "2", "--tolerance", "0.015"});
  for (int i = 0; i < 12; ++i) {
    const json turn = pick(asked({"status"})["places"], {{"gauge", "mic"}});
    done({"operator", "use", turn["operator"], "--gauge", "mic"});
    press("mic",
          line(shown[turn["part"].get<int>() - 1][turn["operator"] == "bo" ? 1 : 0][turn["trial"].get<int>() - 1]));
  }
  const json study = asked({"study", "s"});
  // Sums of squares in square micrometres: parts 120.5, operators 4.083333, interaction 1.166667, within 4.5, all
  // 130.25.
  const json sources = study["anova"]["sources"];
  const auto squares = [&](const char* name) { return sources[name]["squares_mm2"].get<double>() * 1e6; };
  EXPECT_NEAR(squares("parts"), 120.5, 1e-5);
  EXPECT_NEAR(squares("operators"), 4.083333, 1e-5);
  EXPECT_NEAR(squares("interaction"), 1.166667, 1e-5);
  EXPECT_NEAR(squares("repeatability"), 4.5, 1e-5);
  EXPECT_NEAR(squares("total"), 130.25, 1e-5);
  EXPECT_NEAR(sources["interaction"]["f"].get<double>(), 0.777778, 1e-5);
  // The interaction is no more than chance, so it is pooled: 5.666667 over 8.
  const auto sigma = [](const json& one) { return one["sigma_mm"].get<double>() * 1000; };
  EXPECT_NEAR(sigma(study["anova"]["repeatability"]), 0.841625, 1e-5);
  EXPECT_NEAR(sigma(study["anova"]["operators"]), 0.750000, 1e-5);
  EXPECT_NEAR(sigma(study["anova"]["gauge"]), 1.127312, 1e-5);
  EXPECT_NEAR(sigma(study["anova"]["parts"]), 3.858162, 1e-5);
  EXPECT_NEAR(study["anova"]["gauge"]["of_tolerance"].get<double>(), 45.0925, 1e-3);
  EXPECT_EQ(study["anova"]["categories"], 4) << "1.41 x 3.858 / 1.127 = 4.83, cut";
  // Mean range 1.166667; K1 0.8862, K2 0.7071, K3 0.5231.
  const json ranges = study["average_and_range"];
  EXPECT_NEAR(sigma(ranges["repeatability"]), 1.033900, 1e-5);
  EXPECT_NEAR(sigma(ranges["operators"]), 0.708791, 1e-5);
  EXPECT_NEAR(sigma(ranges["gauge"]), 1.253528, 1e-5);
  EXPECT_NEAR(sigma(ranges["parts"]), 4.054025, 1e-5);
  EXPECT_EQ(ranges["categories"], 4);
}

TEST_F(StudyFigures, OfAChart) {
  for (const char* size : {"50.0001", "50.0003", "50.0002", "50.0004", "50.0003", "50.0010"}) {
    done({"master", "mic", "50.000"});
    cable("mic").send(line(size));
    watch_->next("setting");
  }
  const json charts = asked({"charts", "mic"});
  const json individuals = charts["individuals"];
  EXPECT_NEAR(individuals["mean_mm"].get<double>(), 0.00018, 1e-9);
  EXPECT_NEAR(individuals["mean_range_mm"].get<double>(), 0.000425, 1e-9);
  EXPECT_NEAR(individuals["sigma_mm"].get<double>(), 0.000425 / 1.128, 1e-9);
  EXPECT_NEAR(individuals["upper_mm"].get<double>(), 0.00018 + 3 * 0.000425 / 1.128, 1e-9);
  // 0.2 x 0.0002 + 0.8 x 0.00018, and its limits at the first point: 3 sigma x 0.2.
  EXPECT_NEAR(charts["ewma"][0]["value_mm"].get<double>(), 0.000184, 1e-9);
  EXPECT_NEAR(charts["ewma"][0]["upper_mm"].get<double>(), 0.00018 + 0.6 * 0.000425 / 1.128, 1e-9);
}

}  // namespace
}  // namespace acceptance
