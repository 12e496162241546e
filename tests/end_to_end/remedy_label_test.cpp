// What remedies say names the parts by their labels, which may be numbers in another order.
#include "tests/end_to_end/bench.hpp"

namespace acceptance {
namespace {

const std::string backwards = R"(title = "Acceptance: counted from the other end"
unit = "mm"
[layout]
cylinders = 3
labels = ["3", "2", "1"]
[feature.gap]
count = "cylinders"
kind = "gap"
limits = [0.35, 0.50]
)";

class RemedyLabel : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(backwards);
    gauge("g", {"--unit", "mm"});
    press_at({"gap", "3"}, "g", line("0.550"));
    press_at({"gap", "2"}, "g", line("0.400"));
    press_at({"gap", "1"}, "g", line("0.300"));
    const Ran ran = tenth({"remedies"});
    EXPECT_EQ(ran.status, 1);
    text_ = ran.out;
  }
  std::string text_;
};

TEST_F(RemedyLabel, WhatHasNoRemedyIsNamedByIt) {
  EXPECT_NE(text_.find("gap 3: it is 0.0500 mm"), std::string::npos) << text_;
  EXPECT_EQ(text_.find("gap 1: it is 0.0500 mm"), std::string::npos) << "the other end";
}

TEST_F(RemedyLabel, SoIsWhatWouldBeAfterwards) {
  EXPECT_NE(text_.find(" 3  0.550 .. 0.550"), std::string::npos) << text_;
  EXPECT_NE(text_.find(" 1  0.425 .. 0.425"), std::string::npos) << text_;
}

}  // namespace
}  // namespace acceptance
