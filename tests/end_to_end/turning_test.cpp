// A gauge that is rocked: the reading is its turning point, or none, with the reason.
#include <cmath>
#include <thread>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"
#include "tests/end_to_end/profile_text.hpp"
#include "tests/end_to_end/streaming.hpp"

namespace acceptance {
namespace {

class Turning : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    done({"at", "bore"});
  }
  PtyGauge& stream(const Words& options = {}) {
    return gauge("g", options, write("c.toml", line_profile({.groups = continuous})));
  }
  // `take --turning` of this stream is refused, with the reason first.
  void not_taken(const std::string& why, int per_second, const Shown& shown, const std::string& seconds) {
    PtyGauge& cable = stream();
    const Streaming rocking(cable, per_second, shown);
    watch_->next("live");
    const Ran ran = tenth({"--json", "take", "--gauge", "g", "--turning", seconds});
    EXPECT_EQ(ran.status, 4) << ran.out;
    const json error = json::parse(ran.err, nullptr, false);
    EXPECT_TRUE(error.value("message", "").starts_with(why)) << ran.err;
    EXPECT_EQ(asked({"readings", "--all"}), json::array());
  }
};

TEST_F(Turning, TheReadingIsTheTurnWithTheSpreadOfThePasses) {
  const Streaming rocking(stream(), 50, rocked(70.010, 3));
  watch_->next("live");
  const auto begun = std::chrono::steady_clock::now();
  done({"take", "--gauge", "g", "--turning", "2"});
  EXPECT_GE(std::chrono::steady_clock::now() - begun, Millis(1950)) << "it answers at the end of the seconds";
  const json reading = watch_->next("reading");
  EXPECT_NEAR(reading["value_mm"].get<double>(), 70.010, 0.001);
  EXPECT_GE(reading["passes"], 3);
  EXPECT_LE(reading["passes"], 7);
  EXPECT_LT(reading["spread_mm"], 0.005) << "a loaded machine moves the samples about";
  const std::string text = reading["text"];
  EXPECT_EQ(text.size() - text.find('.') - 1, 4U) << "one decimal more than the frames: " << text;
  EXPECT_EQ(reading["state"], "kept");
  const json shown = reading_of(asked({"readings", "--all"}), reading["seq"]);
  EXPECT_EQ(shown["passes"], reading["passes"]);
  EXPECT_EQ(shown["spread_mm"], reading["spread_mm"]);
  EXPECT_EQ(asked({"audit", "--ledger", daemon_.ledger()})["ok"], true);
}

TEST_F(Turning, TooFewPasses) {
  not_taken("too_few", 50, rocked(70.010, 0.7), "1");
}

TEST_F(Turning, TooFastForTheSampling) {
  not_taken("too_fast", 12, rocked(70.010, 5), "2");
}

// Falls to the size, and is lifted off before it turns.
TEST_F(Turning, OneSided) {
  not_taken("one_sided", 50, [](double seconds) { return 70.010 + 0.3 * (1 - std::fmod(2 * seconds, 1.0)); }, "2");
}

TEST_F(Turning, PassesThatDisagree) {
  const Shown square = rocked(70.010, 3);
  not_taken(
      "disagree", 50,
      [=](double seconds) {
        const bool odd = std::lround(3 * seconds - 0.25) % 2 != 0;  // the nearest turn
        return square(seconds) + (odd ? 0.05 : 0.0);
      },
      "2");
}

class Capture : public Turning {
 protected:
  // Rocked from 0.3 s on for so long, lifted off before and after.
  static Shown rocking_for(double seconds) {
    return [square = rocked(70.010, 2), seconds](double now) {
      return now < 0.3 || now > 0.3 + seconds ? 72.0 : square(now);
    };
  }
};

TEST_F(Capture, OneRockingIsOneReading) {
  const Streaming rocking(stream({"--capture", "turning"}), 50, rocking_for(2.2));
  const json reading = watch_->next("reading");
  EXPECT_NEAR(reading["value_mm"].get<double>(), 70.010, 0.001);
  EXPECT_GE(reading["passes"], 3);
  std::this_thread::sleep_for(Millis(1000));
  EXPECT_EQ(asked({"readings", "--all"}).size(), 1U);
}

TEST_F(Capture, AStreamThatStopsEndsTheRocking) {
  PtyGauge& cable = stream({"--capture", "turning"});
  {
    const Streaming rocking(cable, 50, rocked(70.010, 2));
    std::this_thread::sleep_for(Millis(2200));
  }
  EXPECT_GE(watch_->next("reading")["passes"], 3);
}

TEST_F(Capture, ARockingTooShortIsOneFaultWithTheReason) {
  const Streaming rocking(stream({"--capture", "turning"}), 50, rocking_for(0.6));
  const json fault = watch_->next("fault");
  EXPECT_EQ(fault["why"], "turning");
  EXPECT_TRUE(fault["text"].get<std::string>().starts_with("too_few")) << fault;
  std::this_thread::sleep_for(Millis(900));
  EXPECT_EQ(asked({"readings", "--all"}), json::array());
  EXPECT_FALSE(watch_->heard("fault"));
}

TEST_F(Capture, ValuesThatNeverTurnGiveNothing) {
  {
    const Streaming lifting(stream({"--capture", "turning"}), 50, [](double seconds) { return 70.0 + seconds / 2; });
    std::this_thread::sleep_for(Millis(1500));
  }
  watch_->next("gauge", [](const json& event) { return event["state"] == "silent"; });
  EXPECT_FALSE(watch_->heard("fault", [](const json& event) { return event["why"] == "turning"; }));
  EXPECT_EQ(asked({"readings", "--all"}), json::array());
}

TEST_F(Capture, SettledOncePerApproach) {
  const auto begun = std::chrono::steady_clock::now();
  const Streaming settling(stream({"--capture", "settled"}), 50, [](double seconds) {
    return seconds < 1.8 ? 70.010 : seconds < 3.2 ? 70.200 : seconds < 3.3 ? 70.600 : 70.012;
  });
  EXPECT_EQ(watch_->next("reading")["text"], "70.010");
  const auto waited = std::chrono::steady_clock::now() - begun;
  EXPECT_GE(std::chrono::duration_cast<Millis>(waited).count(), 900) << "within the band for a second";
  EXPECT_EQ(watch_->next("reading")["text"], "70.012") << "70.200 is no new approach: it did not leave by 0.3 mm";
}

TEST_F(Capture, OutsideTheBandNothingSettles) {
  const Streaming trembling(stream({"--capture", "settled"}), 50,
                            [](double seconds) { return std::lround(seconds * 50) % 2 == 0 ? 70.010 : 70.014; });
  watch_->next("live");
  std::this_thread::sleep_for(Millis(1600));
  EXPECT_EQ(asked({"readings", "--all"}), json::array());
}

TEST_F(Capture, BandAndTimeAreTheGaugesOwn) {
  const Streaming trembling(stream({"--capture", "settled", "--settle-band", "0.005", "--settle-for-ms", "300"}), 50,
                            [](double seconds) { return std::lround(seconds * 50) % 2 == 0 ? 70.010 : 70.014; });
  EXPECT_EQ(watch_->next("reading")["state"], "kept");
}

TEST_F(Capture, ItsWords) {
  const Words add = {"gauge", "add", "h", "--port", home_ / "port-h", "--profile", "line", "--unit", "mm", "--capture"};
  Words words = add;
  words.push_back("magic");
  refused(words, 2);
  words.back() = "turning";
  refused(words, 4);  // a gauge with a button sends its readings itself
}

}  // namespace
}  // namespace acceptance
