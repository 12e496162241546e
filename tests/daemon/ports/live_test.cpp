// Gauges that show values all the time, are asked for them, or share a port: as their sessions see them, with links and
// time of the test's own.
#include <gtest/gtest.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/post.hpp>

#include "daemon/acts/take.hpp"
#include "daemon/ports/sessions.hpp"
#include "tests/daemon/hand_clock.hpp"
#include "tests/daemon/ports/cable.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

namespace asio = boost::asio;

const std::string kStream =
    "format = \"tenth-profile-1\"\nspeaks = \"line\"\n[value]\npattern = '(?:(?P<channel>[AB]) "
    ")?(?P<number>[-0-9.]+)'\n[trigger]\nby = \"continuous\"\n";
const std::string kQuery =
    "format = \"tenth-profile-1\"\nspeaks = \"query\"\n[value]\npattern = '(?P<number>[-0-9.]+)'\n[trigger]\nask = "
    "\"R\\r\"\nevery_ms = 20\nwithin_ms = 10\n";
const std::string kBox =
    "format = \"tenth-profile-1\"\nspeaks = \"line\"\n[value]\npattern = '(?:(?P<channel>[AB]) "
    ")?(?P<number>[-0-9.]+)'\n";

class Live : public testing::Test {
 protected:
  Live()
      : desk({loop.get_executor(),
              [this](auto bodies, auto stored) { append(std::move(bodies), std::move(stored)); },
              {},
              "",
              &clock,
              {},
              {"tester", 0, "daemon"},
              [] { return std::uint64_t{1}; }}),
        sessions(
            loop.get_executor(), desk,
            [this](const auto&, const std::string& port, const Profile&) -> Result<std::unique_ptr<drivers::Link>> {
              return port == "/dev/probe" ? std::make_unique<CableLink>(cable)
                                          : std::make_unique<CableLink>(other, other_wire);
            }) {
    desk.listen([this](const Json& event, std::int64_t) { events.push_back(event); },
                [this](const Entry& entry) { sessions.follow(entry, desk.view().bench); });
    act(engine_add, {{"name", "K1"}, {"file", "f"}, {"text", kTwin}});
    act(at, {{"words", {"bore", "1", "top", "pin"}}});
  }
  ~Live() override {
    sessions.stop_all();
    settle();
  }
  void append(std::vector<std::string> bodies, StoreThread::Stored stored) {
    asio::post(loop, [stored = std::move(stored), n = bodies.size()] { stored(std::vector<Digest>(n)); });
  }
  /// The answer's code where it is refused, else "".
  std::string act(Decided (*what)(Draft&, const Json&), const Json& params) {
    std::string code;
    desk.command({"tester", 1000, "socket"}, what, params, "test", [&code, this](const Result<Json>& given) {
      if (given) answered = *given;
      if (!given) code = given.error().code;
    });
    settle();
    return code;
  }
  void add(const std::string& name, const std::string& profile, Json more = Json::object()) {
    more.update(
        {{"name", name}, {"port", "/dev/probe"}, {"profile", "own"}, {"profile_text", profile}, {"gauge_unit", "mm"}});
    ASSERT_EQ(act(gauge_add, more), "");
  }
  void settle() {
    loop.restart();
    loop.poll();
  }
  void send(const std::string& text, std::int64_t after_ms) {
    clock.pass(after_ms);
    cable.send(text);
    settle();
  }
  /// Lets real time pass, for the session's timers.
  void run_for(int ms) {
    loop.restart();
    loop.run_for(std::chrono::milliseconds(ms));
  }
  /// As much of it as it takes, on a machine under load too.
  template <class Done>
  void run_until(Done done) {
    loop.restart();
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(10);
    while (!done() && std::chrono::steady_clock::now() < end) loop.run_one_for(std::chrono::milliseconds(100));
  }
  std::vector<std::string> texts() const {
    std::vector<std::string> all;
    for (const Reading& reading : desk.view().bench.engines.at("K1").readings)
      all.push_back(*reading.gauge + " " + reading.text);
    return all;
  }
  std::size_t told(const std::string& event, const std::string& why = "") const {
    return static_cast<std::size_t>(std::count_if(events.begin(), events.end(), [&](const Json& each) {
      return each["event"] == event && (why.empty() || each.value("why", Json()) == why);
    }));
  }

  asio::io_context loop;
  HandClock clock;
  Cable cable{loop}, other{loop};  ///< at /dev/probe, and at every other port
  drivers::Wire other_wire = drivers::Wire::serial;
  Desk desk;
  Sessions sessions;
  std::vector<Json> events;
  Json answered;
};

TEST_F(Live, AValueIsShownAndIsNoReading) {
  add("probe", kStream, {{"reads", "size"}});
  send("83.011\r", 1000);
  EXPECT_TRUE(texts().empty());
  ASSERT_EQ(told("live"), 1U);
  EXPECT_EQ(events.back()["text"], "83.011");
  EXPECT_EQ(events.back()["size_mm"], Json(83.011));
}

TEST_F(Live, ValuesAreToldTenTimesASecondAtMostAndTheNewestAlways) {
  add("probe", kStream, {{"reads", "size"}});
  for (int i = 0; i < 20; ++i) send("83.0" + std::to_string(10 + i) + "\r", 10);
  EXPECT_LE(told("live"), 3U);
  run_for(150);
  EXPECT_EQ(events.back()["text"], "83.029");
}

TEST_F(Live, TakeMakesAReadingOfWhatIsShown) {
  add("probe", kStream, {{"reads", "size"}});
  EXPECT_EQ(act(take, {}), "stale") << "nothing was shown yet";
  send("83.011\r", 1000);
  clock.pass(1000);
  EXPECT_EQ(act(take, {}), "");
  EXPECT_EQ(answered["reading"]["text"], "83.011");
  EXPECT_EQ(answered["reading"]["spread_mm"], Json());
  EXPECT_EQ(texts(), std::vector<std::string>{"probe 83.011"});
  clock.pass(1);
  EXPECT_EQ(act(take, {}), "stale") << "older than a second";
}

TEST_F(Live, TakeIsRefusedAfterAFault) {
  add("probe", kStream, {{"reads", "size"}});
  send("83.011\r", 1000);
  send("83.x\r", 100);
  EXPECT_EQ(act(take, {}), "stale");
  send("83.012\r", 100);
  EXPECT_EQ(act(take, {}), "");
}

TEST_F(Live, AFaultOnASharedPortMakesNoneOfItsGaugesSure) {
  add("a", kStream, {{"reads", "size"}, {"channel", "A"}});
  add("b", kStream, {{"reads", "size"}, {"channel", "B"}});
  send("A 83.011\rB 82.950\r", 1000);
  EXPECT_EQ(act(take, {{"gauge", "b"}}), "");
  send("B 82.x\r", 100);
  EXPECT_EQ(act(take, {{"gauge", "b"}}), "stale");
  EXPECT_EQ(act(take, {{"gauge", "a"}}), "stale");
}

TEST_F(Live, TakeWantsAGaugeThatShowsValues) {
  EXPECT_EQ(act(take, {}), "not_live");
  add("box", kBox, {{"reads", "size"}});
  EXPECT_EQ(act(take, {{"gauge", "box"}}), "not_live");
  EXPECT_EQ(act(take, {{"gauge", "nobody"}}), "unknown_gauge");
}

TEST_F(Live, AnotherGaugesButtonTakesWhatIsShown) {
  add("a", kBox, {{"reads", "size"}, {"channel", "A"}});
  Json probe = {
      {"name", "probe"}, {"port", "/dev/other"}, {"profile", "line-stream"}, {"gauge_unit", "mm"}, {"button", "a"}};
  ASSERT_EQ(act(gauge_add, probe), "");
  send("A 83.011\r", 1000);
  EXPECT_EQ(texts(), std::vector<std::string>{"a 83.011"});
  EXPECT_EQ(told("fault", "stale"), 1U) << "the probe shows nothing";
  other.send("83.5\r");
  settle();
  send("A 83.012\r", 500);
  EXPECT_EQ(texts(), (std::vector<std::string>{"a 83.011", "a 83.012", "probe 83.5"}));
  probe["name"] = "third";
  probe["port"] = "/dev/third";
  probe["button"] = "nobody";
  EXPECT_EQ(act(gauge_add, probe), "unknown_gauge");
  probe["button"] = "a";
  probe["profile"] = "line";
  EXPECT_EQ(act(gauge_add, probe), "capture") << "it sends readings itself";
}

TEST_F(Live, ASettlingGaugeGivesOneReadingForEachApproach) {
  add("probe", kStream, {{"reads", "size"}, {"capture", "settled"}});
  for (const char* const value : {"85.0\r", "83.5\r"}) send(value, 100);
  for (int i = 0; i < 15; ++i) send("83.011\r", 100);
  EXPECT_EQ(texts().size(), 1U);
  send("85.0\r", 100);
  for (int i = 0; i < 12; ++i) send("83.012\r", 100);
  EXPECT_EQ(texts(), (std::vector<std::string>{"probe 83.011", "probe 83.012"}));
}

/// Rocked through 83.010 mm: three passes, 20 values a second.
std::string rocked(int i) {
  const int phase = i % 20 - 10;
  char text[16];
  std::snprintf(text, sizeof text, "%.3f\r", 83.010 + 0.004 * phase * phase);
  return text;
}

TEST_F(Live, ARockedGaugeGivesItsTurningPointWithItsStream) {
  add("probe", kStream, {{"reads", "size"}, {"capture", "turning"}});
  for (int i = 0; i < 100; ++i) send(rocked(i), 50);
  for (int i = 0; i < 20; ++i) send("85.000\r", 50);
  ASSERT_EQ(texts().size(), 1U);
  const Reading& reading = desk.view().bench.engines.at("K1").readings[0];
  EXPECT_LE((reading.value - Length::from_um(83'010)).magnitude(), Length::from_um(1));
  EXPECT_EQ(reading.text.size(), 7U) << "one decimal more than the frames: " << reading.text;
  EXPECT_EQ(reading.passes, 5);
  EXPECT_TRUE(reading.spread);
}

TEST_F(Live, ATurningPointIsToldAsTheGaugeCounts) {
  const auto told_by = [&](const std::string& form, const std::string& sign) {
    std::string profile = kStream;
    add("probe", profile.insert(profile.find("pattern"), form), {{"reads", "size"}, {"capture", "turning"}});
    for (int i = 0; i < 100; ++i) send(sign + rocked(i), 50);
    for (int i = 0; i < 20; ++i) send(sign + "85.000\r", 50);
    EXPECT_EQ(act(gauge_drop, {{"name", "probe"}}), "");
    const auto& readings = desk.view().bench.engines.at("K1").readings;
    return readings.empty() ? "none" : exact_mm(readings.back().value) + " " + readings.back().text;
  };
  EXPECT_EQ(told_by("", ""), "83.01 83.0100");
  EXPECT_EQ(told_by("scale = \"2\"\n", ""), "166.02 83.0100") << "before scale";
  EXPECT_EQ(told_by("negate = true\n", "-"), "83.01 -83.0100") << "and before its sign is turned";
}

TEST_F(Live, TakeTurningAnswersFromTheStretchAsked) {
  add("probe", kStream, {{"reads", "size"}});
  send("83.9\r", 50);
  const std::int64_t since = clock.now().mono_ns + 1;
  for (int i = 0; i < 100; ++i) send(rocked(i), 50);
  EXPECT_EQ(act(take, {{"since_ns", since}}), "");
  EXPECT_EQ(answered["reading"]["passes"], 5);
  EXPECT_EQ(act(take, {{"since_ns", clock.now().mono_ns - 900'000'000}}), "too_few");
}

TEST_F(Live, AGaugeOnARockingThatIsNoneTellsAFault) {
  add("probe", kStream, {{"reads", "size"}, {"capture", "turning"}});
  for (int i = 0; i < 20; ++i) send(rocked(i), 50);
  for (int i = 0; i < 20; ++i) send("85.000\r", 50);
  EXPECT_TRUE(texts().empty());
  EXPECT_EQ(told("fault", "turning"), 1U);
}

TEST_F(Live, OnlyAGaugeThatShowsValuesCanBeCaptured) {
  EXPECT_EQ(act(gauge_add,
                {{"name", "b"}, {"port", "/dev/b"}, {"profile", "line"}, {"gauge_unit", "mm"}, {"capture", "settled"}}),
            "capture");
}

TEST_F(Live, APolledGaugeIsAskedAndItsAnswersAreShown) {
  cable.answer = "83.011\r";
  add("probe", kQuery, {{"reads", "size"}});
  run_until([&] { return cable.asked.size() >= 4; });
  EXPECT_TRUE(cable.asked.starts_with("R\rR\r")) << cable.asked;
  EXPECT_EQ(act(take, {}), "");
  EXPECT_EQ(texts(), std::vector<std::string>{"probe 83.011"});
}

TEST_F(Live, NoAnswerIsSilenceUntilOneComes) {
  add("probe", kQuery, {{"reads", "size"}});
  run_until([&] { return told("fault", "silent") >= 2U; });
  EXPECT_EQ(desk.view().live.at("probe").state, "silent");
  EXPECT_EQ(act(take, {}), "stale");
  cable.answer = "83.011\r";
  run_until([&] { return desk.view().live.at("probe").state == "open"; });
  EXPECT_EQ(desk.view().live.at("probe").state, "open");
}

TEST_F(Live, AfterHalfAnAnswerNothingIsAskedUntilItsRestHasHadItsTime) {
  add("probe", kQuery, {{"reads", "size"}});
  run_until([&] { return !cable.asked.empty(); });
  cable.send("83.0");
  run_until([&] { return told("fault", "cut_short") == 1U; });
  const std::string asked = cable.asked;
  run_for(20);
  cable.send("11\r");
  settle();
  EXPECT_EQ(cable.asked, asked) << "its rest would be taken for the next answer";
  EXPECT_EQ(told("live"), 0U);
  EXPECT_EQ(told("fault", "noise"), 1U);
}

TEST_F(Live, AGaugeThatSendsByItselfAndDoesNotIsSilent) {
  add("probe", kStream, {{"reads", "size"}});
  clock.pass(2000);
  run_for(2100);
  EXPECT_EQ(desk.view().live.at("probe").state, "silent");
  EXPECT_EQ(told("fault", "silent"), 1U);
  send("83.011\r", 10);
  EXPECT_EQ(desk.view().live.at("probe").state, "open");
}

TEST_F(Live, WhatComesWithoutAQuestionIsNoise) {
  const std::string once =
      "format = \"tenth-profile-1\"\nspeaks = \"query\"\n[value]\npattern = '(?P<number>[-0-9.]+)'\n[trigger]\nask = "
      "\"R\\r\"\nevery_ms = 60000\nwithin_ms = 10\n";
  add("probe", once, {{"reads", "size"}});
  run_until([&] { return told("fault", "silent") == 1U; });  // asked once, and the time for the answer is over
  cable.send("83.011\r");
  settle();
  EXPECT_EQ(told("fault", "noise"), 1U);
  EXPECT_EQ(told("live"), 0U);
}

TEST_F(Live, AValueTogetherWithDamageIsNotShown) {
  add("probe", kStream, {{"reads", "size"}});
  send("83.x\r83.011\r", 100);
  EXPECT_EQ(told("live"), 0U);
  EXPECT_EQ(act(take, {}), "stale");
  EXPECT_EQ(told("fault", "noise"), 1U);
  send("83.012\r", 100);
  EXPECT_EQ(act(take, {}), "");
}

TEST_F(Live, AnAnswerToAnEarlierQuestionDoesNotHideTheRightOne) {
  other_wire = drivers::Wire::network;
  const std::string profile =
      "format = \"tenth-profile-1\"\nspeaks = \"modbus\"\n[trigger]\nevery_ms = 60000\nwithin_ms = 50000\n";
  ASSERT_EQ(
      act(gauge_add,
          {{"name", "m"}, {"port", "/dev/other"}, {"profile", "own"}, {"profile_text", profile}, {"gauge_unit", "mm"}}),
      "");
  settle();
  ASSERT_GE(other.asked.size(), 12U);
  std::string right = other.asked.substr(0, 2) + std::string("\0\0\0\7\1\4\4\x42\xA7\0\0", 11), stale = right;
  stale[1] = static_cast<char>(stale[1] - 1);
  other.send(stale);
  settle();
  EXPECT_EQ(told("fault", "bad_frame"), 1U);
  other.send(right);
  settle();
  EXPECT_EQ(told("fault", "silent"), 0U);
  EXPECT_EQ(told("fault", "noise"), 0U);
  ASSERT_EQ(told("live"), 1U);
  EXPECT_EQ(events.back()["text"], "83.5000");
}

TEST_F(Live, BytesThatAreNoTextAreToldAndHurtNobody) {
  const std::string profile =
      "format = \"tenth-profile-1\"\nspeaks = \"line\"\n[value]\npattern = '(?P<number>[0-9.]+)(?P<status>.)?'\n";
  add("odd", profile, {{"reads", "size"}});
  send("83.011\xB5\r", 100);
  EXPECT_EQ(told("fault", "status"), 1U);
  for (const Json& event : events) EXPECT_NO_THROW(canonical(event));
}

TEST_F(Live, AGaugeOfAButtonIsNeverAsked) {
  add("box", kBox, {{"reads", "size"}});
  run_for(60);
  EXPECT_EQ(cable.asked, "");
}

TEST_F(Live, ChannelsOfOnePortAreGaugesOfTheirOwn) {
  add("a", kBox, {{"reads", "size"}, {"channel", "A"}});
  add("b", kBox, {{"reads", "size"}, {"channel", "B"}});
  send("A 83.011\r", 1000);
  send("B 83.012\r", 1000);
  EXPECT_EQ(texts(), (std::vector<std::string>{"a 83.011", "b 83.012"}));
  send("83.013\r", 1000);
  EXPECT_EQ(told("fault", "bad_frame"), 1U) << "no gauge is without a channel";
  EXPECT_EQ(act(gauge_add, {{"name", "c"},
                            {"port", "/dev/probe"},
                            {"profile", "own"},
                            {"profile_text", kBox},
                            {"gauge_unit", "mm"},
                            {"channel", "B"}}),
            "port_taken");
  EXPECT_EQ(act(gauge_add, {{"name", "c"},
                            {"port", "/dev/probe"},
                            {"profile", "line-channels"},
                            {"gauge_unit", "mm"},
                            {"channel", "C"}}),
            "port_taken")
      << "another profile";
  act(gauge_drop, {{"name", "a"}});
  send("B 83.014\r", 1000);
  EXPECT_EQ(texts().back(), "b 83.014");
  send("A 83.015\r", 1000);
  EXPECT_EQ(texts().back(), "b 83.014");
}

TEST_F(Live, DamageOnAPortIsEverybodysOnIt) {
  add("a", kBox, {{"reads", "size"}, {"channel", "A"}});
  add("b", kBox, {{"reads", "size"}, {"channel", "B"}});
  send("B 83.012\rA 83.x\r", 1000);
  EXPECT_EQ(doubts(desk.view().bench.engines.at("K1").readings[0]), "damaged");
}

TEST_F(Live, AChangedGaugeKeepsWhatStillHolds) {
  add("a", kBox, {{"reads", "deviation"}, {"serial", "7"}});
  act(master, {{"gauge", "a"}, {"size", "83 mm"}});
  send("0.000\r", 1000);
  EXPECT_EQ(act(gauge_change, {{"name", "a"}, {"drift", "0.001 mm"}}), "");
  EXPECT_EQ(desk.view().bench.gauges.at("a").drift, Length::from_um(1));
  ASSERT_TRUE(desk.view().bench.gauges.at("a").setting);
  send("0.010\r", 1000);
  EXPECT_EQ(desk.view().bench.engines.at("K1").readings.back().size, Length::from_um(83'010));
  EXPECT_EQ(act(gauge_change, {{"name", "a"}, {"serial", "8"}}), "gauge_exists");
  EXPECT_EQ(act(gauge_change, {{"name", "a"}, {"gauge_unit", "in"}}), "");
  EXPECT_FALSE(desk.view().bench.gauges.at("a").setting) << "the same numbers are inches now";
  EXPECT_EQ(act(gauge_change, {{"name", "a"}, {"gauge_unit", "mm"}}), "");
  act(master, {{"gauge", "a"}, {"size", "83 mm"}});
  send("0.000\r", 1000);
  ASSERT_TRUE(desk.view().bench.gauges.at("a").setting);
  EXPECT_EQ(act(gauge_change, {{"name", "a"}, {"reads", "size"}}), "");
  EXPECT_FALSE(desk.view().bench.gauges.at("a").setting) << "the same numbers mean something else";
}

}  // namespace
}  // namespace tenth
