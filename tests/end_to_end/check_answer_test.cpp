// A check answered twice: the second word is held against the first, as a second value is.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

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

TEST_F(CheckAnswer, ADifferingPairLeavesOnlyARefusal) {
  const std::size_t before = entries(daemon_.ledger()).size();
  for (const char* again : {"no", "later", "0.5 mm"}) {
    EXPECT_EQ(tenth({"enter", "yes", "--again", again}).status, 4) << again;
  }
  const auto since = entries(daemon_.ledger(), "seq > " + std::to_string(before));
  ASSERT_EQ(since.size(), 3U);
  for (const Entry& entry : since) EXPECT_EQ(entry.json()["kind"], "refused") << entry.body;
  EXPECT_TRUE(answer().is_null());
}

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
