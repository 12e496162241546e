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

/// The far end of a network, in the test's hand.
struct FarEnd {
  explicit FarEnd(asio::io_context& loop) : rings(loop, asio::steady_timer::time_point::max()) {}
  asio::steady_timer rings;  ///< cancelled: it answers, or refuses
  bool answers = false;
  int opened = 0, called = 0;
};

class CallingLink : public CableLink {
 public:
  CallingLink(Cable& cable, FarEnd& far) : CableLink(cable, drivers::Wire::network), far_(far) { ++far_.opened; }
  bool connected() const override { return connected_; }
  asio::awaitable<Result<void>> connect() override {
    ++far_.called;
    co_await far_.rings.async_wait(asio::as_tuple(asio::use_awaitable));
    connected_ = far_.answers;
    if (!connected_) co_return refuse("absent", "nobody answers", "");
    co_return Result<void>();
  }

 private:
  FarEnd& far_;
  bool connected_ = false;
};

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
        sessions(
            loop.get_executor(), desk,
            [this](const auto&, const std::string& port, const Profile&) -> Result<std::unique_ptr<drivers::Link>> {
              if (port == "/dev/later" && refused) return tl::unexpected(*refused);
              if (port.starts_with("tcp:")) return std::make_unique<CallingLink>(far_cable, far);
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
  void ring(bool answers) {
    far.answers = answers;
    far.rings.cancel();
    settle();
  }
  std::string shown(const std::string& name) const {
    const LiveGauge& live = desk.view().live.at(name);
    return live.state + ": " + live.why;
  }
  void add_later(const std::string& why) {
    refused = refuse(why, why, "").value();
    act(gauge_add, {{"name", "later"}, {"port", "/dev/later"}, {"profile", "line"}, {"gauge_unit", "mm"}});
    EXPECT_EQ(shown("later"), "gone: " + why);
    refused.reset();
  }
  void wait(std::int64_t ms) {
    loop.restart();
    loop.run_for(std::chrono::milliseconds(ms));
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
  Cable cable{loop}, far_cable{loop};
  FarEnd far{loop};
  std::optional<Refusal> refused;  ///< why /dev/later does not open
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

TEST_F(Session, APortThatIsNotOursAtFirstIsOpenWithinASecondOfBeingGranted) {
  add_later("permission");
  wait(700);
  EXPECT_EQ(shown("later"), "open: ");
}

TEST_F(Session, APortThatAnotherProgramHoldsIsAskedEverySecond) {
  add_later("in_use");
  wait(700);
  EXPECT_EQ(shown("later"), "gone: in_use");
  wait(500);
  EXPECT_EQ(shown("later"), "open: ");
}

TEST_F(Session, ANetworkIsConnectingAndTheSameLinkIsTriedAgain) {
  act(gauge_add, {{"name", "net"}, {"port", "tcp:server:4001"}, {"profile", "line"}, {"gauge_unit", "mm"}});
  EXPECT_EQ(shown("net"), "gone: connecting");
  EXPECT_EQ(std::count(kinds.begin(), kinds.end(), "gauge_link"), 0) << "nothing has changed yet";
  ring(false);
  EXPECT_EQ(shown("net"), "gone: nobody answers");
  EXPECT_EQ(far.called, 1);
  wait(700);
  EXPECT_EQ(far.called, 2) << "after half a second";
  EXPECT_EQ(far.opened, 1) << "what it knows of the host it still knows";
  EXPECT_EQ(shown("net"), "gone: nobody answers") << "until something else is known";
  ring(true);
  EXPECT_EQ(shown("net"), "open: ");
}

}  // namespace
}  // namespace tenth
