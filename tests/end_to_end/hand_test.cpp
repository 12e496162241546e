// Values and answers entered by hand.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

class Hand : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    done({"gauge", "add", "feeler", "--port", "hand", "--profile", "line", "--measures", "gap", "--unit", "mm"});
    done({"at", "ring_gap_top", "1"});
    watch_->forget();
  }
};

TEST_F(Hand, EqualLengthsMakeOneReading) {
  done({"enter", "0.4070", "--again", "0.407", "--gauge", "feeler", "--note", "second try"});
  const json reading = watch_->next("reading");
  EXPECT_EQ(reading["source"], "hand");
  EXPECT_EQ(reading["gauge"], "feeler");
  EXPECT_EQ(reading["raw"], "0.4070");
  EXPECT_EQ(reading["text"], "0.4070");
  EXPECT_EQ(reading["size_mm"], 0.407);
  EXPECT_EQ(reading["state"], "kept");
  EXPECT_EQ(place_of(reading), "ring_gap_top/1");
}

TEST_F(Hand, LengthsMayCarryTheirUnit) {
  done({"enter", "16thou", "--again", "0.016 in", "--gauge", "feeler"});
  const json reading = watch_->next("reading");
  EXPECT_EQ(reading["size_mm"], 0.4064);
  EXPECT_EQ(reading["text"], "16thou");
}

TEST_F(Hand, DifferentValuesStoreOnlyARefusal) {
  const auto before = entries(daemon_.ledger());
  const Ran ran = tenth({"enter", "0.407", "--again", "0.470", "--gauge", "feeler"});
  EXPECT_EQ(ran.status, 4) << ran.err;
  EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1) << ran.err;
  const auto after = entries(daemon_.ledger());
  ASSERT_EQ(after.size(), before.size() + 1);
  EXPECT_NE(after.back().json()["kind"].get<std::string>().find("refus"), std::string::npos) << after.back().body;
  EXPECT_EQ(asked({"readings", "--all"}), json::array());
}

TEST_F(Hand, WithoutATerminalTheSecondIsWanted) {
  refused({"enter", "0.407", "--gauge", "feeler"}, 2);
  refused({"enter", "0.40.7", "--again", "0.40.7", "--gauge", "feeler"}, 2);
  refused({"enter", "0.4mmm", "--again", "0.4mmm", "--gauge", "feeler"}, 2);
}

TEST_F(Hand, AGrossSlipOfTheFingersIsHeld) {
  done({"enter", "4.07", "--again", "4.07", "--gauge", "feeler"});
  const json reading = watch_->next("reading");
  EXPECT_EQ(doubts_of(reading), "range tenfold");
}

TEST_F(Hand, AHandGaugeIsListedAndNeverGone) {
  const json gauge = pick(asked({"status"})["gauges"], {{"name", "feeler"}});
  EXPECT_NE(gauge["state"], "gone");
}

TEST_F(Hand, AQuestionTakesYesNoAndLater) {
  const auto answer = [](int status) { return asked({"check"}, status)["checks"][0]; };
  EXPECT_EQ(answer(0)["feature"], "oil_feed_clear");
  EXPECT_TRUE(answer(0)["answer"].is_null());
  EXPECT_EQ(answer(0)["verdict"], "incomplete");
  done({"at", "oil_feed_clear"});
  done({"enter", "later", "--note", "plug is still in"});
  EXPECT_EQ(answer(0)["verdict"], "incomplete");
  EXPECT_EQ(answer(0)["note"], "plug is still in");
  done({"at", "oil_feed_clear"});
  done({"enter", "no"});
  EXPECT_EQ(answer(1)["answer"], "no");
  EXPECT_EQ(answer(1)["verdict"], "out");
  done({"at", "oil_feed_clear"});
  done({"enter", "yes"});
  EXPECT_EQ(answer(0)["answer"], "yes");
  EXPECT_EQ(answer(0)["verdict"], "in");
}

TEST_F(Hand, AnAnswerIsNoSizeAndASizeNoAnswer) {
  refused({"enter", "yes"}, 4);  // a ring gap stands there
  done({"at", "oil_feed_clear"});
  refused({"enter", "0.4", "--again", "0.4"}, 4);
}

}  // namespace
}  // namespace acceptance
