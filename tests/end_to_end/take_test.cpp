// Gauges that send all the time: live values, and readings taken from them.
#include <thread>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/profile_text.hpp"
#include "tests/end_to_end/streaming.hpp"

namespace acceptance {
namespace {

class Take : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    done({"at", "bore"});
  }
  PtyGauge& stream(const Words& options = {}, const std::string& trigger = continuous) {
    return gauge("g", options, write("c.toml", line_profile({.groups = trigger})));
  }
  json live(const std::string& text) {
    cable("g").send(line(text));
    return watch_->next("live", [&](const json& event) { return event["text"] == text; });
  }
};

TEST_F(Take, FramesAreLiveAndNeverReadingsByThemselves) {
  stream();
  done({"round", "bore", "piston"});
  const json shown = live("70.010");
  EXPECT_EQ(shown["gauge"], "g");
  EXPECT_EQ(shown["unit"], "mm");
  EXPECT_EQ(shown["value_mm"], 70.01);
  EXPECT_EQ(shown["size_mm"], 70.01);
  EXPECT_EQ(asked({"readings", "--all"}), json::array());
  EXPECT_EQ(asked({"status"})["places"][0]["feature"], "bore");
}

TEST_F(Take, AtMostTenASecondAndTheNewestIsAlwaysTold) {
  PtyGauge& cable = stream();
  for (int k = 0; k < 100; ++k) {
    cable.send(line(std::to_string(1000 + k)));
    std::this_thread::sleep_for(Millis(10));
  }
  int told = 0;
  while (watch_->next("live")["text"] != "1099") ++told;
  EXPECT_LE(told, 14) << "a second, and room for a loaded machine";
  EXPECT_GE(told, 5);
}

TEST_F(Take, WhatIsShownBecomesAReadingAndMovesTheRound) {
  stream();
  done({"round", "bore", "piston"});
  live("70.009");
  live("70.010");
  watch_->forget();
  done({"take"});
  const json reading = watch_->next("reading");
  EXPECT_EQ(reading["text"], "70.010");
  EXPECT_EQ(reading["raw"], "70.010");
  EXPECT_EQ(reading["state"], "kept");
  EXPECT_EQ(reading["source"], "gauge");
  EXPECT_TRUE(reading["passes"].is_null());
  EXPECT_TRUE(reading["spread_mm"].is_null());
  EXPECT_EQ(watch_->next("place")["feature"], "piston");
}

TEST_F(Take, AnOldValueIsRefused) {
  stream();
  refused({"take", "--gauge", "g"}, 4);
  live("70.010");
  std::this_thread::sleep_for(Millis(1100));
  refused({"take", "--gauge", "g"}, 4);
}

TEST_F(Take, ThreePeriodsMayPassWhereTheyAreLonger) {
  stream({}, "[trigger]\nby = \"poll\"\nevery_ms = 1500\nwithin_ms = 10000\n");
  live("70.010");
  std::this_thread::sleep_for(Millis(1300));
  done({"take", "--gauge", "g"});
  std::this_thread::sleep_for(Millis(3500));
  refused({"take", "--gauge", "g"}, 4);
}

TEST_F(Take, AfterAFaultIsRefusedUntilAGoodValue) {
  stream();
  live("70.010");
  cable("g").send(line("ERR"));
  watch_->next("fault");
  refused({"take", "--gauge", "g"}, 4);
  live("70.011");
  done({"take", "--gauge", "g"});
}

TEST_F(Take, AGaugeWithAButtonIsNotTaken) {
  gauge("b", {"--unit", "mm"});
  refused({"take", "--gauge", "b"}, 4);
  refused({"take", "--gauge", "b", "--turning", "1"}, 4);
  refused({"take", "--gauge", "nobody"}, 4);
  refused({"take"}, 4);
}

TEST_F(Take, ItsWords) {
  stream();
  for (const char* seconds : {"0", "-1", "x", ""}) refused({"take", "--gauge", "g", "--turning", seconds}, 2);
}

TEST_F(Take, ADeviationIsLiveWithItsSizeOnceItIsSet) {
  stream({"--reads", "deviation", "--measures", "inside"});
  EXPECT_TRUE(live("0.010")["size_mm"].is_null());
  done({"master", "g", "70.000"});
  live("0.002");
  done({"take", "--gauge", "g"});
  EXPECT_EQ(watch_->next("setting")["shown_mm"], 0.002);
  EXPECT_EQ(asked({"readings", "--all"}), json::array()) << "a setting is no reading";
  EXPECT_EQ(live("0.011")["size_mm"], 70.009);
}

TEST_F(Take, AStreamThatStopsIsSilentAndCountsAsOpen) {
  stream();
  live("70.010");
  const auto sent = std::chrono::steady_clock::now();
  watch_->next("gauge", [](const json& event) { return event["state"] == "silent"; });
  const auto waited = std::chrono::duration_cast<Millis>(std::chrono::steady_clock::now() - sent).count();
  EXPECT_GE(waited, 1900);
  EXPECT_LE(waited, 3000);
  const json shown = pick(asked({"status"})["gauges"], {{"name", "g"}});
  EXPECT_EQ(shown["state"], "silent");
  EXPECT_GE(shown["age_s"], 1) << "stale, with its age";
  live("70.011");
  watch_->next("gauge", [](const json& event) { return event["state"] == "open"; });
}

TEST_F(Take, AStreamThatNeverBeganIsSilentAndAButtonNever) {
  gauge("b", {"--unit", "mm"});
  stream();
  watch_->next("gauge", [](const json& event) { return event["state"] == "silent"; });
  EXPECT_EQ(pick(asked({"status"})["gauges"], {{"name", "b"}})["state"], "open");
}

}  // namespace
}  // namespace acceptance
