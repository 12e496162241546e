// `gauge change`: what is not named stays; foot pedals; floods.
#include <cctype>
#include <fstream>
#include <thread>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Change : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    gauge("g", {"--unit", "mm"});
    done({"at", "bore"});
  }
  static json shown() { return pick(asked({"gauge", "list"}), {{"name", "g"}}); }
};

TEST_F(Change, OnlyWhatIsNamedChanges) {
  EXPECT_EQ(press("g", line("70.010"))["state"], "kept");
  const json before = shown();
  done({"gauge", "change", "g", "--measures", "outside"});
  EXPECT_EQ(doubts_of(press("g", line("70.010"))), "wrong_kind");
  json after = shown();
  EXPECT_EQ(after["measures"], "outside");
  after["measures"] = before["measures"];
  for (const char* key : {"name", "port", "profile", "reads", "unit"}) EXPECT_EQ(after[key], before[key]) << key;
}

TEST_F(Change, SurvivesARestart) {
  done({"gauge", "change", "g", "--measures", "outside"});
  daemon_.stop();
  daemon_.start();
  restart_watch();
  wait_open("g");
  EXPECT_EQ(doubts_of(press("g", line("70.010"))), "wrong_kind");
}

TEST_F(Change, AnotherPortAndAnotherProfile) {
  PtyGauge other(home_ / "port-other");
  watch_->forget();
  done({"gauge", "change", "g", "--port", other.port(), "--profile", "bcd13"});
  watch_->next("gauge", [](const json& event) { return event["state"] == "open"; });
  other.send(bcd13("70.010"));
  EXPECT_EQ(watch_->next("reading")["state"], "kept");
  EXPECT_EQ(run({"flock", "--nonblock", cable("g").device(), "true"}).status, 0) << "the old port is let go of";
}

TEST_F(Change, WhatIsWrongChangesNothing) {
  const json before = shown();
  gauge("h", {"--unit", "mm"});
  refused({"gauge", "change", "nobody", "--measures", "inside"}, 4);
  refused({"gauge", "change", "g", "--measures", "sideways"}, 2);
  refused({"gauge", "change", "g", "--profile", "nosuch"}, 4);
  refused({"gauge", "change", "g", "--port", cable("h").port()}, 4);
  refused({"gauge", "change", "g"}, 2);
  EXPECT_EQ(shown(), before);
  EXPECT_EQ(press("g", line("70.010"))["state"], "kept");
}

using Pedal = Change;

TEST_F(Pedal, IsAddedListedAndDropped) {
  done({"pedal", "add", "foot", "--port", "keys:foot-switch", "--press", "take", "--long", "undo"});
  const json foot = pick(asked({"pedal", "list"}), {{"name", "foot"}});
  EXPECT_EQ(foot["port"], "keys:foot-switch");
  daemon_.stop();
  daemon_.start();
  EXPECT_EQ(asked({"pedal", "list"}).size(), 1U);
  done({"pedal", "drop", "foot"});
  EXPECT_EQ(asked({"pedal", "list"}), json::array());
  refused({"pedal", "drop", "foot"}, 4);
}

TEST_F(Pedal, ItsWords) {
  done({"pedal", "add", "foot", "--port", "keys:foot-switch"});
  refused({"pedal", "add", "foot", "--port", "keys:other"}, 4);
  refused({"pedal", "add", "foot2", "--port", "keys:foot-switch"}, 4);
  refused({"gauge", "add", "k", "--port", "keys:foot-switch", "--profile", "keys", "--unit", "mm"}, 4);
  refused({"pedal", "add", "foot2", "--port", "keys:x", "--press", "jump"}, 2);
  refused({"pedal", "add", "foot2"}, 2);
  refused({"gauge", "add", "k", "--port", home_ / "port-k", "--profile", "pedal", "--unit", "mm"}, 4);
  refused({"gauge", "add", "k", "--port", home_ / "port-k", "--profile", "keys", "--unit", "mm"}, 4);
  refused({"gauge", "add", "k", "--port", "keys:k", "--profile", "line", "--unit", "mm"}, 4);
}

using Flood = Change;

TEST_F(Flood, WithoutAnEndHarmsNoOtherGaugeAndIsTold) {
  gauge("h", {"--unit", "mm"}, "bin24");
  std::jthread flood([&](const std::stop_token& stop) {
    const std::string bytes(4096, '7');
    while (!stop.stop_requested()) cable("g").send(bytes);
  });
  EXPECT_EQ(watch_->next("gauge", [](const json& event) { return event["state"] == "flooding"; })["gauge"], "g");
  for (int k = 0; k < 10; ++k) {
    const auto pressed = std::chrono::steady_clock::now();
    EXPECT_EQ(press("h", bin24(7001))["state"], "kept");
    EXPECT_LT(std::chrono::steady_clock::now() - pressed, Millis(3000)) << "without an end, if it had to wait for it";
  }
  flood.request_stop();
  flood.join();
  watch_->forget();
  cable("g").send("\r");
  watch_->next("gauge", [](const json& event) { return event["state"] == "open"; });
  EXPECT_EQ(press("g", line("70.010"))["state"], "kept");
}

// The time that a process has used, in ticks of 10 ms (proc(5), fields 14 and 15).
long ticks(pid_t pid) {
  std::ifstream file("/proc/" + std::to_string(pid) + "/stat");
  std::string word;
  long user = 0, system = 0;
  for (int k = 0; k < 13; ++k) file >> word;
  file >> user >> system;
  return user + system;
}

TEST_F(Flood, UnpluggedCostsNothing) {
  cable("g").unplug();
  watch_->next("gauge", [](const json& event) { return event["state"] == "gone"; });
  const long before = ticks(daemon_.pid());
  std::this_thread::sleep_for(Millis(2000));
  EXPECT_LE(ticks(daemon_.pid()) - before, 10) << "of 200";
}

TEST_F(Flood, UnpluggedUnderLoadWhatWasToldIsStoredAndItComesBack) {
  for (int turn = 0; turn < 3; ++turn) {
    for (int k = 0; k < 100; ++k) cable("g").send(line("70.010"));
    cable("g").unplug();
    watch_->next("gauge", [](const json& event) { return event["state"] == "gone"; });
    cable("g").plug();
    watch_->next("gauge", [](const json& event) { return event["state"] == "open"; });
  }
  watch_->forget();
  const json last = press("g", line("70.011"));
  EXPECT_EQ(last["text"], "70.011");
  for (const json& reading : asked({"readings", "--all"}))
    EXPECT_EQ(reading["text"].get<std::string>().substr(0, 5), "70.01");
}

}  // namespace
}  // namespace acceptance
