#include "daemon/ports/pedals.hpp"

#include <gtest/gtest.h>

#include <boost/asio/as_tuple.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/use_awaitable.hpp>

#include "tests/daemon/hand_clock.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

namespace asio = boost::asio;

struct Board {
  explicit Board(asio::io_context& loop) : waits(loop, asio::steady_timer::time_point::max()) {}
  asio::steady_timer waits;
  std::string keys;
  bool pulled = false;
};

class BoardLink : public drivers::Link {
 public:
  explicit BoardLink(Board& board) : board_(board) {}
  asio::awaitable<drivers::Chunk> read() override {
    while (board_.keys.empty() && !board_.pulled && open_)
      co_await board_.waits.async_wait(asio::as_tuple(asio::use_awaitable));
    drivers::Chunk chunk{{}, board_.pulled || !open_, "the keyboard has gone"};
    for (const char c : std::exchange(board_.keys, {})) chunk.bytes.push_back({static_cast<std::uint8_t>(c), false});
    co_return chunk;
  }
  std::vector<drivers::Received> read_rest() override { return {}; }
  bool write(std::string_view) override { return false; }
  void close() override {
    open_ = false;
    board_.waits.cancel();
  }

 private:
  Board& board_;
  bool open_ = true;
};

class Foot : public testing::Test {
 protected:
  Foot()
      : desk({loop.get_executor(),
              [this](auto bodies, auto stored) { append(std::move(bodies), std::move(stored)); },
              {},
              "",
              &clock,
              {},
              {"tester", 0, "daemon"},
              [] { return std::uint64_t{1}; }}),
        pedals(loop.get_executor(), desk,
               [this](const auto&, const std::string&, const Profile& profile) { return open(profile); },
               {"tester", 0, "daemon"}) {
    desk.listen([this](const Json& event, std::int64_t) { events.push_back(event); },
                [this](const Entry& entry) {
                  last_via = entry.body.at("by").at("via").get<std::string>();
                  pedals.follow(entry, desk.view().bench);
                });
    act(engine_add, {{"name", "K1"}, {"file", "f"}, {"text", kTwin}});
    act(round_begin, {{"features", {"bore"}}});
  }
  ~Foot() override {
    pedals.stop_all();
    settle();
  }
  Result<std::unique_ptr<drivers::Link>> open(const Profile& profile) {
    EXPECT_EQ(profile.speaks, Speaks::pedal);
    if (absent) return refuse("absent", "there is no keyboard", "plug it in");
    return std::make_unique<BoardLink>(board);
  }
  void append(std::vector<std::string> bodies, StoreThread::Stored stored) {
    asio::post(loop, [stored = std::move(stored), n = bodies.size()] { stored(std::vector<Digest>(n)); });
  }
  std::string act(Decided (*what)(Draft&, const Json&), const Json& params) {
    std::string code;
    desk.command({"tester", 1000, "socket"}, what, params, "test", [&code](const Result<Json>& given) {
      if (!given) code = given.error().code;
    });
    settle();
    return code;
  }
  void settle() {
    loop.restart();
    loop.poll();
  }
  void key(char what, std::int64_t after_ms) {
    clock.time.mono_ns += after_ms * 1'000'000;
    board.keys += what;
    board.waits.cancel();
    settle();
  }
  std::size_t at() const { return desk.view().bench.common.at; }
  Json pedal() const { return pedal_json(desk.view(), desk.view().bench.pedals.at("foot")); }

  asio::io_context loop;
  HandClock clock;
  Board board{loop};
  bool absent = false;
  Desk desk;
  Pedals pedals;
  std::vector<Json> events;
  std::string last_via;
};

TEST_F(Foot, APressIsAnActAtOnceWhereNoLongOneIsSet) {
  ASSERT_EQ(act(pedal_add, {{"name", "foot"}, {"port", "keys:f"}, {"press", "next"}}), "");
  EXPECT_EQ(pedal()["state"], "open");
  EXPECT_TRUE(desk.view().live.empty()) << "a pedal is no gauge, whatever a gauge may be called";
  key('d', 10);
  EXPECT_EQ(at(), 1U);
  EXPECT_EQ(last_via, "pedal");
  key('u', 900);
  EXPECT_EQ(at(), 1U) << "letting go is nothing";
}

TEST_F(Foot, HowLongItWasHeldDecidesWhenItIsLetGo) {
  ASSERT_EQ(act(pedal_add, {{"name", "foot"}, {"port", "keys:f"}, {"press", "next"}, {"long", "back"}}), "");
  key('d', 10);
  EXPECT_EQ(at(), 0U);
  key('u', 499);
  EXPECT_EQ(at(), 1U);
  key('d', 10);
  key('u', 500);
  EXPECT_EQ(at(), 0U);
}

TEST_F(Foot, WhatIsRefusedIsTold) {
  ASSERT_EQ(act(pedal_add, {{"name", "foot"}, {"port", "keys:f"}}), "");
  EXPECT_EQ(pedal()["press"], "take");
  events.clear();
  key('d', 10);
  ASSERT_FALSE(events.empty());
  EXPECT_EQ(events.back()["why"], "refused") << "no gauge shows values";
}

/// As a ledger of another version may have it.
Decided add_dancing(Draft& draft, const Json&) {
  draft.append("pedal", {{"pedal", "foot"}, {"port", "keys:f"}, {"press", "dance"}, {"long", nullptr}});
  return [](const View&) { return Json::object(); };
}

TEST_F(Foot, AnActThatNobodyKnowsIsRefusedAndNoOtherIsDone) {
  ASSERT_EQ(act(add_dancing, {}), "");
  events.clear();
  key('d', 10);
  ASSERT_EQ(events.size(), 1U);
  EXPECT_EQ(events.back()["text"], "a pedal cannot `dance`");
}

TEST_F(Foot, APulledPedalIsGoneAndTakesNothing) {
  ASSERT_EQ(act(pedal_add, {{"name", "foot"}, {"port", "keys:f"}, {"press", "next"}}), "");
  absent = board.pulled = true;
  board.waits.cancel();
  settle();
  EXPECT_EQ(pedal()["state"], "gone");
}

TEST_F(Foot, ADroppedPedalActsNoMore) {
  ASSERT_EQ(act(pedal_add, {{"name", "foot"}, {"port", "keys:f"}, {"press", "next"}}), "");
  ASSERT_EQ(act(pedal_drop, {{"name", "foot"}}), "");
  key('d', 10);
  EXPECT_EQ(at(), 0U);
  EXPECT_EQ(act(pedal_drop, {{"name", "foot"}}), "unknown_pedal");
}

TEST_F(Foot, IsADeviceWithKeysThatNobodyHas) {
  EXPECT_EQ(act(pedal_add, {{"name", "foot"}, {"port", "/dev/ttyUSB0"}}), "port");
  EXPECT_EQ(act(pedal_add, {{"name", "foot"}, {"port", "keys:f"}, {"press", "dance"}}), "act");
  ASSERT_EQ(act(pedal_add, {{"name", "foot"}, {"port", "keys:f"}}), "");
  EXPECT_EQ(act(pedal_add, {{"name", "foot"}, {"port", "keys:g"}}), "pedal_exists");
  EXPECT_EQ(act(pedal_add, {{"name", "hand"}, {"port", "keys:f"}}), "port_taken");
}

}  // namespace
}  // namespace tenth
