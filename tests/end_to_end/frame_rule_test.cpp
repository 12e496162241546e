// Where a frame begins and ends, and what becomes of the bytes between: start, end, most, silence.
#include <thread>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/profile_text.hpp"

namespace acceptance {
namespace {

class FrameRule : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    done({"at", "bore"});
  }
  void with(const std::string& frame) { gauge("g", {}, write("p.toml", line_profile({.frame = frame}))); }
  void kept(const std::string& bytes, const std::string& raw) {
    const json reading = press("g", bytes);
    EXPECT_EQ(reading["raw"], raw);
    EXPECT_EQ(reading["state"], "kept") << reading;
  }
  void fault(const std::string& bytes, const std::string& why, std::size_t count) {
    cable("g").send(bytes);
    const json fault = watch_->next("fault");
    EXPECT_EQ(fault["why"], why);
    EXPECT_EQ(fault["bytes"], count);
  }
  // A burst of bytes ends with a pause of 200 ms.
  static void quiet() { std::this_thread::sleep_for(Millis(260)); }
};

TEST_F(FrameRule, BytesBeforeTheStartAreNoise) {
  with("start = \"#\"");
  kept("#70.010\r", "#70.010");
  fault("xyz#70.011\r", "noise", 3);
  EXPECT_EQ(doubts_of(watch_->next("reading")), "damaged");
  quiet();
  kept("#70.012\r", "#70.012");
}

TEST_F(FrameRule, ALineWithoutTheStartIsNoReading) {
  with("start = \"#\"");
  cable("g").send("70.012\r");
  quiet();
  kept("#70.013\r", "#70.013");
  EXPECT_EQ(watch_->next("fault")["raw"], "70.012");
}

TEST_F(FrameRule, ControlCharactersAreStartAndEnd) {
  with("start = \"\\u0002\"\nend = [\"\\u0003\"]");
  kept(
      "\x02"
      "70.010\x03",
      "\\x0270.010");
}

TEST_F(FrameRule, TheLongestEndThatFitsEndsIt) {
  with("end = [\";\", \"\\r\\n;\"]");
  kept("70.010;", "70.010");
  kept("70.011\r\n;", "70.011");
}

TEST_F(FrameRule, AnEndOfTwoBytesMayComeInTwoPieces) {
  with("end = [\"\\r\\n\"]");
  cable("g").send("70.0");
  cable("g").send("10\r");
  quiet();
  kept("\n", "70.010");
  EXPECT_FALSE(watch_->heard("fault"));
}

TEST_F(FrameRule, AFrameAsLongAsAllowedIsReadAndALongerOneIsNot) {
  with("most = 10");
  kept("    70.010\r", "    70.010");
  fault("     70.010\r", "too_long", 11);
  quiet();
  kept("70.011\r", "70.011");
}

TEST_F(FrameRule, ThePauseDropsAnUnfinishedFrame) {
  with("silence_ms = 60");
  fault("70.", "cut_short", 3);
  quiet();
  kept("70.011\r", "70.011");
}

TEST_F(FrameRule, WithoutSuchAPauseAFrameMayTakeItsTime) {
  with("silence_ms = 0");
  cable("g").send("70.");
  std::this_thread::sleep_for(Millis(700));
  kept("011\r", "70.011");
  EXPECT_FALSE(watch_->heard("fault"));
}

TEST_F(FrameRule, APortThatClosesCutsItsFrameShort) {
  with("");
  cable("g").send("70.0");
  quiet();
  cable("g").unplug();
  const json fault = watch_->next("fault");
  EXPECT_EQ(fault["why"], "cut_short");
  EXPECT_EQ(fault["raw"], "70.0");
}

}  // namespace
}  // namespace acceptance
