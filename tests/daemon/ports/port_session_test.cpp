// A gauge's port as the session sees it, with a link of the test's own.
#include <gtest/gtest.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/post.hpp>

#include "daemon/ports/sessions.hpp"
#include "tests/daemon/hand_clock.hpp"
#include "tests/daemon/ports/cable.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

namespace asio = boost::asio;
class Session : public testing::Test {
 protected:
  Session()
      : desk({loop.get_executor(),
              [this](auto bodies, auto stored) { append(std::move(bodies), std::move(stored)); },
              {},
              "",
              &clock,
              {},
              {"tester", 0, "daemon"},
              [] { return std::uint64_t{1}; }}),
        sessions(loop.get_executor(), desk,
                 [this](const auto&, const std::string&, const Profile&) -> Result<std::unique_ptr<drivers::Link>> {
                   return std::make_unique<CableLink>(cable);
                 }) {
    desk.listen([](const Json&, std::int64_t) {},
                [this](const Entry& entry) {
                  kinds.push_back(entry.body.at("kind"));
                  sessions.follow(entry, desk.view().bench);
                });
    act(engine_add, {{"name", "K1"}, {"file", "f"}, {"text", kTwin}});
    act(gauge_add,
        {{"name", "bore"}, {"port", "/dev/bore"}, {"profile", "line"}, {"gauge_unit", "mm"}, {"reads", "deviation"}});
    act(at, {{"words", {"bore", "1", "top", "pin"}}});
    kinds.clear();
  }
  ~Session() override {
    sessions.stop_all();
    settle();
  }
  void append(std::vector<std::string> bodies, StoreThread::Stored stored) {
    asio::post(loop, [stored = std::move(stored), n = bodies.size()] { stored(std::vector<Digest>(n)); });
  }
  void act(Decided (*what)(Draft&, const Json&), const Json& params) {
    desk.command({"tester", 1000, "socket"}, what, params, "test",
                 [](const Result<Json>& answer) { EXPECT_TRUE(answer) << answer.error().message; });
    settle();
  }
  void settle() {
    loop.restart();
    loop.poll();
  }
  /// One chunk of bytes, so many milliseconds after the last.
  void send(const std::string& text, std::int64_t after_ms) {
    clock.pass(after_ms);
    cable.send(text);
    settle();
  }
  const Gauge& gauge() const { return desk.view().bench.gauges.at("bore"); }
  std::vector<std::string> doubts_told() const {
    std::vector<std::string> all;
    for (const Reading& reading : desk.view().bench.engines.at("K1").readings)
      all.push_back(reading.text + " " + doubts(reading));
    return all;
  }

  asio::io_context loop;
  HandClock clock;
  Cable cable{loop};
  Desk desk;
  Sessions sessions;
  std::vector<std::string> kinds;
};

TEST_F(Session, ASettingWithDamageLaterInItsBurstCountsNoMore) {
  act(master, {{"gauge", "bore"}, {"size", "83.000 mm"}});
  send("0.000\r", 1000);
  ASSERT_TRUE(gauge().setting);
  send("0.01x\r", 199);
  EXPECT_FALSE(gauge().setting);
  EXPECT_TRUE(desk.view().bench.settings.back().voided);
}

TEST_F(Session, DamageAfterAPauseIsAnotherBurst) {
  act(master, {{"gauge", "bore"}, {"size", "83.000 mm"}});
  send("0.000\r", 1000);
  send("0.01x\r", 200);
  EXPECT_TRUE(gauge().setting);
  send("0.010\r", 200);
  EXPECT_EQ(doubts_told(), std::vector<std::string>{"0.010 "});
}

TEST_F(Session, AReadingBesideDamageIsDoubtedWhicheverCameFirst) {
  act(master, {{"gauge", "bore"}, {"size", "83.000 mm"}});
  send("0.000\r", 1000);
  send("0.010\r", 1000);
  send("0.01x\r0.011\r", 199);
  send("0.012\r", 200);
  EXPECT_EQ(doubts_told(), (std::vector<std::string>{"0.010 damaged", "0.011 damaged", "0.012 "}));
}

TEST_F(Session, WhatThePortHasReceivedIsStoredBeforeTheEnd) {
  cable.rest = "0.010\r0.011\r0.0";
  sessions.stop_all();
  settle();
  const auto all = doubts_told();
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[1].substr(0, 6), "0.011 ");
  EXPECT_EQ(std::count(kinds.begin(), kinds.end(), "fault"), 1) << "the part frame";
}

TEST_F(Session, WhatHadComeBeforeAGaugeWasChangedIsItsOwn) {
  cable.rest = "0.010\r";
  act(gauge_change, {{"name", "bore"}, {"drift", "0.001 mm"}});
  ASSERT_EQ(doubts_told().size(), 1U);
  EXPECT_EQ(doubts_told()[0].substr(0, 6), "0.010 ");
}

TEST_F(Session, ADroppedGaugeTakesNoMore) {
  cable.rest = "0.010\r";
  act(gauge_drop, {{"name", "bore"}});
  EXPECT_TRUE(doubts_told().empty());
}

}  // namespace
}  // namespace tenth
