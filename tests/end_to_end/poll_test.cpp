// Gauges that are asked: what is written to them, what comes of the answers, and of none.
#include <thread>

#include "tests/end_to_end/answering.hpp"
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/profile_text.hpp"

namespace acceptance {
namespace {

class Poll : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    done({"at", "bore"});
  }
  void TearDown() override { far_end_.reset(); }
  void with(const std::string& profile, const std::string& end, const std::string& always) {
    PtyGauge& cable = gauge("g", {"--unit", "mm"}, profile);
    far_end_ = std::make_unique<Answering>(cable.far_end(), ended_by(end), always);
  }
  std::filesystem::path file() { return write("p.toml", line_profile({.groups = polled})); }
  json live(const std::string& text) {
    return watch_->next("live", [&](const json& event) { return event["text"] == text; });
  }
  json fault(const std::string& why) {
    return watch_->next("fault", [&](const json& event) { return event["why"] == why; });
  }
  json told(const std::string& state) {
    return watch_->next("gauge", [&](const json& event) { return event["state"] == state; });
  }
  std::unique_ptr<Answering> far_end_;
};

TEST_F(Poll, IsAskedAgainAndAgainAndItsAnswersAreLive) {
  with(file(), "\r", "70.010\r");
  const json live = this->live("70.010");
  EXPECT_EQ(live["gauge"], "g");
  EXPECT_EQ(live["unit"], "mm");
  EXPECT_EQ(live["value_mm"], 70.01);
  EXPECT_EQ(live["size_mm"], 70.01);
  far_end_->answer("70.011\r");
  this->live("70.011");
  for (const std::string& asked : far_end_->asked()) EXPECT_EQ(asked, "R\r");
  EXPECT_EQ(asked({"readings", "--all"}), json::array());
}

TEST_F(Poll, IsAskedAsOftenAsTheProfileSays) {
  with(file(), "\r", "70.010\r");
  live("70.010");
  const auto begun = std::chrono::steady_clock::now();
  const std::size_t before = far_end_->asked().size();
  std::this_thread::sleep_for(Millis(1000));
  const auto more = static_cast<long>(far_end_->asked().size() - before);
  EXPECT_GE(more, 4) << "a loaded machine asks late";
  EXPECT_LE(more, (std::chrono::steady_clock::now() - begun) / Millis(100) + 1) << "every 100 ms";
}

TEST_F(Poll, NoAnswerIsSilentUntilOneComes) {
  with(file(), "\r", "70.010\r");
  live("70.010");
  watch_->forget();
  far_end_->answer("");
  EXPECT_EQ(fault("silent")["gauge"], "g");
  told("silent");
  EXPECT_EQ(pick(asked({"status"})["gauges"], {{"name", "g"}})["state"], "silent");
  refused({"take", "--gauge", "g"}, 4);
  const std::size_t before = far_end_->asked().size();
  far_end_->answer("70.011\r");
  told("open");
  live("70.011");
  EXPECT_GT(far_end_->asked().size(), before) << "it is asked on";
}

TEST_F(Poll, AHalfAnswerNeverJoinsTheNext) {
  with(file(), "\r", "70.010\r");
  live("70.010");
  far_end_->answer("70.0");
  fault("cut_short");
  far_end_->answer("70.012\r");
  live("70.012");
  EXPECT_FALSE(watch_->heard("live", [](const json& event) { return event["text"].get<std::string>().size() != 6; }));
}

TEST_F(Poll, AfterAFaultThereIsNothingToTake) {
  with(file(), "\r", "70.010\r");
  live("70.010");
  far_end_->answer("ERR\r");
  fault("bad_frame");
  refused({"take", "--gauge", "g"}, 4);
}

TEST_F(Poll, WithoutAQuestionNothingIsEverWritten) {
  PtyGauge& button = gauge("g", {"--unit", "mm"});
  PtyGauge& stream = gauge("h", {}, write("c.toml", line_profile({.groups = continuous})));
  PtyGauge& dumb =
      gauge("i", {}, write("d.toml", line_profile({.groups = "[trigger]\nby = \"poll\"\nevery_ms = 50\n"})));
  EXPECT_EQ(button.heard(Millis(300)), "");
  EXPECT_EQ(stream.heard(Millis(50)), "");
  EXPECT_EQ(dumb.heard(Millis(50)), "");
}

TEST_F(Poll, DroppingItWhileItIsAskedHarmsNothing) {
  with(file(), "\r", "");
  watch_->next("fault");
  done({"gauge", "drop", "g"});
  EXPECT_EQ(asked({"status"})["gauges"], json::array());
}

// IEEE 488.2: NR1 a whole number, NR2 with a point, NR3 with an exponent.
TEST_F(Poll, TheShippedQueryReadsAllThreeKindsOfNumbers) {
  with("query", "\n", "70\n");
  EXPECT_EQ(live("70")["value_mm"], 70.0);
  far_end_->answer("+70.01\r\n");
  EXPECT_EQ(live("+70.01")["value_mm"], 70.01);
  far_end_->answer("+7.001000E+01\n");
  EXPECT_EQ(live("+7.001000E+01")["value_mm"], 70.01);
  EXPECT_FALSE(watch_->heard("fault"));
}

}  // namespace
}  // namespace acceptance
