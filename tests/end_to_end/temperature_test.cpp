// Temperatures told by command, sizes at 20 °C, and the budget behind an uncertainty.
#include "tests/end_to_end/bench.hpp"

namespace acceptance {
namespace {

const std::string warm = R"(title = "Acceptance: warm"
unit = "mm"
[feature.bore]
kind = "inside"
limits = [70.000, 70.020]
material = "our iron"
[feature.piston]
kind = "outside"
limits = [69.940, 69.955]
material = "piston alloy"
[fit.clearance]
inside = "bore"
outside = "piston"
limits = [0.050, 0.080]
[material."our iron"]
expansion = 10
)";

class Temperature : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(warm);
    gauge("g", {"--unit", "mm", "--uncertainty", "0.002"});
  }
};

TEST_F(Temperature, SizesAreCorrectedAndTheFitSaysSo) {
  done({"temperature", "--part", "30", "--gauge", "20", "--within", "0.5"});
  const json bore = press_at({"bore"}, "g", line("70.010"));
  EXPECT_EQ(bore["size_mm"], 70.01);
  EXPECT_EQ(bore["size_20c_mm"], 70.002999);  // 70.010 × (1 - 10e-6 × 10)
  press_at({"piston"}, "g", line("69.950"));
  const json fit = asked({"check"}, 1)["fits"][0];  // the piston alone is out: at 20 °C it is too small
  EXPECT_EQ(fit["corrected"], true);
  EXPECT_EQ(fit["mean_mm"], 0.06663925);  // 70.002999 - 69.950 × (1 - 19.5e-6 × 10)
}

TEST_F(Temperature, FahrenheitAndAFeatureAlone) {
  done({"temperature", "--part", "86F", "--gauge", "68F", "piston"});
  EXPECT_TRUE(press_at({"bore"}, "g", line("70.010"))["size_20c_mm"].is_null());
  EXPECT_EQ(press_at({"piston"}, "g", line("69.950"))["size_20c_mm"], 69.93635975);
  EXPECT_EQ(asked({"check"}, 1)["fits"][0]["corrected"], "outside");
  EXPECT_FALSE(pick(asked({"alerts"}), {{"what", "temperature"}}).is_null());
}

TEST_F(Temperature, TheBudgetIsShown) {
  done({"temperature", "--part", "30", "--gauge", "20", "--within", "0.5"});
  press_at({"bore"}, "g", line("70.010"));
  press_at({"piston"}, "g", line("69.950"));
  const json budget = asked({"check", "--budget", "clearance", "1"});
  EXPECT_EQ(budget["terms"].size(), 4U);
  EXPECT_NE(done({"check", "--budget", "clearance", "1"}).find("gauge g"), std::string::npos);
  refused({"check", "--budget", "clearance", "2"}, 4);
}

TEST_F(Temperature, WhatIsNoneIsRefused) {
  refused({"temperature", "--part", "warm"}, 2);
  refused({"temperature", "--gauge", "20"}, 2);
  refused({"temperature", "--part", "20", "crankpin"}, 4);
}

TEST_F(Temperature, SurvivesARestartAndTheRecordProvesIt) {
  done({"temperature", "--part", "30", "--gauge", "20"});
  daemon_.stop();
  daemon_.start();
  restart_watch();
  const json bore = press_at({"bore"}, "g", line("70.010"));
  EXPECT_EQ(bore["size_20c_mm"], 70.002999);
  const auto record = home_ / "record.json";
  done({"export", "--format", "json", "--output", record.string()});
  done({"audit", "--record", record.string()});
}

}  // namespace
}  // namespace acceptance
