// From the frame's number to millimetres: decimals, exponents, units, scale, negate, range.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/profile_text.hpp"

namespace acceptance {
namespace {

class Value : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    done({"at", "bore"});
  }
  void with(const ProfileText& text) {
    const std::string name = "g";
    gauge(name, {}, write("p.toml", line_profile(text)));
  }
  void reads(const std::string& frame, double value_mm, const std::string& text) {
    const json reading = press("g", line(frame));
    EXPECT_EQ(reading["value_mm"], value_mm) << frame;
    EXPECT_EQ(reading["text"], text);
    EXPECT_EQ(reading["raw"], frame);
  }
  void fault(const std::string& frame, const std::string& why) {
    cable("g").send(line(frame));
    EXPECT_EQ(watch_->next("fault")["why"], why) << frame;
  }
};

TEST_F(Value, TheOdditiesOfDecimalLines) {
  with({});
  reads("70,010", 70.01, "70,010");
  reads("  0070.010mm", 70.01, "0070.010");
  reads("+ 70.01", 70.01, "+ 70.01");
  reads("2.7500in", 69.85, "2.7500");
  reads("7.001E1", 70.01, "7.001E1");
  reads("7001e-2", 70.01, "7001e-2");
  reads("-0.000", 0.0, "-0.000");
  reads("- 0.5 mmK", -0.5, "- 0.5");
}

TEST_F(Value, UnitsAreTheProfilesWords) {
  with({.value = "units = { M = \"mm\", Z = \"in\" }", .pattern = "(?P<number>[0-9.]+)(?P<unit>[A-Z])?"});
  reads("2.75Z", 69.85, "2.75");
  reads("70.01M", 70.01, "70.01");
  reads("70.01", 70.01, "70.01");
  fault("70.01X", "bad_frame");
}

TEST_F(Value, IsScaledByADecimal) {
  with({.value = "scale = \"0.001\""});
  reads("7001", 7.001, "7001");
}

TEST_F(Value, IsScaledByAFractionExactly) {
  with({.value = "scale = \"1/3\""});
  reads("3", 1.0, "3");
  fault("1", "bad_frame");  // finer than a picometre
}

TEST_F(Value, IsNegatedAndScaled) {
  with({.value = "scale = \"1/2000\"\nnegate = true"});
  reads("-10", 0.005, "-10");
  reads("3", -0.0015, "3");
}

TEST_F(Value, TheRangeIsInclusiveAndHeldAgainstMillimetresAsRead) {
  with({.value = "scale = \"0.1\"\nnegate = true", .groups = "[limits]\nrange = [\"-1 mm\", \"0.5 mm\"]\n"});
  reads("10", -1.0, "10");
  reads("-5.0", 0.5, "-5.0");
  fault("10.001", "out_of_range");
  fault("-5.001", "out_of_range");
  EXPECT_EQ(asked({"readings", "--all"}).size(), 2U);
}

TEST_F(Value, TheRangeMayBeInInches) {
  with({.groups = "[limits]\nrange = [\"-1 in\", \"1 in\"]\n"});
  reads("25.4", 25.4, "25.4");
  fault("25.401", "out_of_range");
}

TEST_F(Value, TheProfilesSettleTimeHoldsOnARound) {
  with({.groups = "[trigger]\nsettle_ms = 60000\n"});
  done({"round", "bore", "piston", "--gauge", "g"});
  EXPECT_EQ(press("g", line("70.010"))["state"], "kept");
  EXPECT_EQ(doubts_of(press("g", line("69.950"))), "too_soon");
}

}  // namespace
}  // namespace acceptance
