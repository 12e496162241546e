// A check answered twice: the second word is held against the first, as a second value is.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class CheckAnswer : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    done({"at", "oil_feed_clear"});
  }
  static json answer() { return asked({"check"})["checks"][0]["answer"]; }
};

TEST_F(CheckAnswer, AnEqualPairIsStored) {
  done({"enter", "yes", "--again", "yes"});
  EXPECT_EQ(answer(), "yes");
}

TEST_F(CheckAnswer, TheLastAnswerCounts) {
  done({"enter", "no"});
  EXPECT_EQ(asked({"check"}, 1)["verdict"], "out");
  done({"enter", "yes"});
  EXPECT_EQ(answer(), "yes");
}

}  // namespace
}  // namespace acceptance
