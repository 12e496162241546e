#include "daemon/desk.hpp"

#include <gtest/gtest.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/post.hpp>

#include "schema/ledger/fold.hpp"
#include "schema/store/hash.hpp"
#include "tests/daemon/hand_clock.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

/// A disk of the test: takes batches, refuses them while `full`, or while `unsure` does not say whether it took them.
class DeskTest : public testing::Test {
 protected:
  DeskTest()
      : desk({loop.get_executor(),
              [this](auto bodies, auto stored) { append(std::move(bodies), std::move(stored)); },
              {},
              "",
              &clock,
              {},
              {"tester", 0, "daemon"},
              [] { return std::uint64_t{1}; },
              std::chrono::milliseconds(1)}) {
    desk.listen([this](const Json& event, std::int64_t seq) { events.push_back(event), event_seqs.push_back(seq); },
                [](const Entry&) {});
  }

  void append(std::vector<std::string> bodies, StoreThread::Stored stored) {
    ++attempts;
    boost::asio::post(loop, [this, bodies = std::move(bodies), stored = std::move(stored)] {
      if (full) return stored(refuse("not_stored", "the disk is full", ""));
      if (unsure) {
        tried.push_back(bodies);
        return stored(refuse("not_known", "a sync failed", ""));
      }
      std::vector<Digest> hashes;
      for (const std::string& body : bodies) {
        rows.push_back(body);
        hashes.push_back(sha256(body));
      }
      batches.push_back(bodies.size());
      events_before_commit = std::max(events_before_commit, events.size());
      stored(hashes);
    });
  }

  void act(Decided (*what)(Draft&, const Json&), const Json& params) {
    desk.command({"tester", 1000, "socket"}, what, params, "test",
                 [this](Result<Json> answer) { answers.push_back(std::move(answer)); });
  }
  void press(const std::string& number) {
    Frame frame{"mic", {number, number, length_from_decimal(number, Unit::mm).value(), Unit::mm, true},
                false, clock.now(),
                {},    0,
                {}};
    desk.frame(std::move(frame), [](std::int64_t) {});
  }
  /// A loaded machine takes its time; five seconds are for one that never comes.
  template <class Done>
  void run_until(Done done) {
    const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(5);
    loop.restart();
    while (!done() && std::chrono::steady_clock::now() < until) loop.run_one_for(std::chrono::milliseconds(10));
  }
  void settle() {
    loop.restart();
    loop.poll();
  }
  void disk_works_again() {
    full = unsure = false;
    loop.restart();
    loop.run_for(std::chrono::milliseconds(20));
  }
  void set_up_bench() {
    act(engine_add, {{"name", "K1"}, {"file", "f"}, {"text", kTwin}});
    act(gauge_add, {{"name", "mic"}, {"port", "/dev/mic"}, {"profile", "bcd13"}});
    act(at, {{"words", {"piston", "1"}}});
    settle();
    for (const auto& answer : answers) ASSERT_TRUE(answer) << answer.error().message;
    answers.clear();
    events.clear();
    batches.clear();
  }
  std::vector<std::string> told(const std::string& event) const {
    std::vector<std::string> texts;
    for (const Json& each : events)
      if (each["event"] == event) texts.push_back(each.value("text", ""));
    return texts;
  }

  boost::asio::io_context loop;
  HandClock clock;
  bool full = false, unsure = false;
  std::vector<std::vector<std::string>> tried;
  int attempts = 0;
  std::vector<std::string> rows;
  std::vector<std::size_t> batches;
  std::vector<Json> events;
  std::vector<std::int64_t> event_seqs;
  std::size_t events_before_commit = 0;
  std::vector<Result<Json>> answers;
  Desk desk;
};

TEST_F(DeskTest, WhatWaitsTogetherIsOneTransaction) {
  set_up_bench();
  for (const char* number : {"82.950", "82.951", "82.952"}) press(number);
  settle();
  EXPECT_EQ(batches, std::vector<std::size_t>{4});  // and the alert: a check should have come first
  EXPECT_EQ(told("reading"), (std::vector<std::string>{"82.950", "82.951", "82.952"}));
}

TEST_F(DeskTest, NothingIsToldBeforeTheDiskHasIt) {
  set_up_bench();
  press("82.950");
  loop.restart();
  loop.run_one();  // decided and handed to the disk
  EXPECT_TRUE(events.empty());
  EXPECT_TRUE(desk.view().bench.reading_index.empty());
  settle();
  EXPECT_EQ(told("reading").size(), 1U);
  EXPECT_FALSE(events.front()["hash"].get<std::string>().empty());
}

TEST_F(DeskTest, EveryReadingIsToldWithTheHashThatTheLedgerHas) {
  act(engine_add, {{"name", "K1"}, {"file", "f"}, {"text", kTwin}});
  act(gauge_add, {{"name", "mic"}, {"port", "/dev/mic"}, {"profile", "bcd13"}});
  act(at, {{"words", {"bore/1/top/pin"}}});
  settle();
  press("83.010");  // the one entry of its batch
  settle();
  EXPECT_EQ(Json::parse(rows.back())["kind"], "reading");
  EXPECT_EQ(events.back()["hash"], hex(sha256(rows.back())));
}

TEST_F(DeskTest, AFrameThatCameBeforeACommandWasOnDiskBelongsToThePlaceBefore) {
  set_up_bench();
  act(at, {{"words", {"piston", "2"}}});
  press("82.950");  // the command has not even been decided
  loop.restart();
  loop.run_one();
  press("82.951");  // decided, but not on disk
  settle();
  press("82.952");
  settle();
  std::vector<int> indexes;
  for (const Json& event : events)
    if (event["event"] == "reading") indexes.push_back(event["index"]);
  EXPECT_EQ(indexes, (std::vector<int>{1, 1, 2}));
}

TEST_F(DeskTest, AFullDiskKeepsFramesRefusesCommandsAndTellsItOnce) {
  set_up_bench();
  full = true;
  press("82.950");
  act(at, {{"words", {"piston", "2"}}});
  settle();
  ASSERT_EQ(answers.size(), 1U);
  EXPECT_EQ(answers[0].error().code, "not_stored");
  EXPECT_EQ(told("reading").size(), 0U);
  EXPECT_EQ(told("fault").size(), 1U);
  act(at, {{"words", {"piston", "2"}}});
  EXPECT_EQ(answers.size(), 2U) << "refused at once while the disk is full";
  press("82.951");
  EXPECT_EQ(desk.view().waiting, 2U);

  disk_works_again();
  EXPECT_EQ(told("reading"), (std::vector<std::string>{"82.950", "82.951"}));
  EXPECT_EQ(desk.view().bench.common.place->index, 1) << "the refused command has left nothing behind";
  EXPECT_EQ(desk.view().waiting, 0U);
}

TEST_F(DeskTest, WhatMayBeOnDiskIsAppendedAgainAsItIs) {
  set_up_bench();
  unsure = true;
  press("82.950");
  act(at, {{"words", {"piston", "2"}}});
  settle();
  ASSERT_EQ(answers.size(), 1U);
  EXPECT_EQ(answers[0].error().code, "not_known");
  press("82.951");  // belongs to the place on disk: the command is still under way
  act(operator_add, {{"name", "ann"}});
  EXPECT_EQ(answers.back().error().code, "not_stored") << "refused at once: it was never decided";
  run_until([this] { return tried.size() >= 2; });
  ASSERT_GE(tried.size(), 2U);
  EXPECT_EQ(tried.front(), tried.back()) << "the same salts and times";
  EXPECT_EQ(told("fault").size(), 1U);
  EXPECT_TRUE(told("reading").empty());
  disk_works_again();
  EXPECT_EQ(told("reading"), (std::vector<std::string>{"82.950", "82.951"}));
  EXPECT_EQ(desk.view().bench.common.place->index, 2) << "the command was stored as it was told";
  EXPECT_EQ(answers.size(), 2U) << "and answered once";
  for (const Json& event : events) EXPECT_TRUE(event["event"] != "reading" || event["index"] == 1);
  EXPECT_TRUE(desk.view().bench.operators.empty());
  EXPECT_EQ(desk.view().waiting, 0U);
}

TEST_F(DeskTest, AClockStepIsSaidThoughTheDiskRefusedItFirst) {
  set_up_bench();
  full = true;
  clock.time.wall_us -= 3'600'000'000;
  press("82.950");
  settle();
  disk_works_again();
  EXPECT_EQ(Json::parse(rows[rows.size() - 3])["kind"], "clock");
}

TEST_F(DeskTest, TenThousandFramesWaitThenThePortsAreReadNoFurther) {
  set_up_bench();
  full = true;
  press("82.950");
  settle();
  for (std::size_t n = 1; n < Desk::kMostWaiting; ++n) {
    ASSERT_TRUE(desk.has_room());
    press("82.950");
  }
  EXPECT_FALSE(desk.has_room());
}

TEST_F(DeskTest, NoCommandOvertakesFramesThatWait) {
  set_up_bench();
  act(stage_begin, {{"name", "again"}, {"features", {"piston"}}});
  act(at, {{"words", {"piston", "2"}}});
  for (int n = 0; n < 600; ++n) press("82.950");  // more than one batch takes
  settle();
  int at_two = 0, readings = 0;
  for (const Json& event : events)
    if (event["event"] == "reading") {
      ++readings;
      at_two += event["index"] == 2 ? 1 : 0;
    }
  EXPECT_EQ(readings, 600);
  EXPECT_EQ(at_two, 0);
  EXPECT_EQ(desk.view().bench.common.place->index, 2);
}

TEST_F(DeskTest, ABatchIsBounded) {
  set_up_bench();
  for (int n = 0; n < 600; ++n) press("82.950");
  settle();
  EXPECT_EQ(batches, (std::vector<std::size_t>{513, 88})) << "with the alert of the check that should have come first";
}

TEST_F(DeskTest, ACommandThatWaitsBehindARefusedBatchIsRefusedToo) {
  set_up_bench();
  full = true;
  press("82.950");
  loop.restart();
  loop.run_one();  // under way
  act(operator_add, {{"name", "ann"}});
  settle();
  ASSERT_EQ(answers.size(), 1U);
  EXPECT_EQ(answers[0].error().code, "not_stored");
  disk_works_again();
  EXPECT_TRUE(desk.view().bench.operators.empty());
}

TEST_F(DeskTest, ACommandThatChangesNoPlaceLeavesTheRoundToTheFrames) {
  set_up_bench();
  act(round_begin, {{"features", {"piston"}}});
  settle();
  press("82.950");
  act(operator_add, {{"name", "ann"}});
  loop.restart();
  loop.run_one();  // both are decided and under way
  press("82.951");
  settle();
  std::vector<int> indexes;
  for (const Json& event : events)
    if (event["event"] == "reading") indexes.push_back(event["index"]);
  EXPECT_EQ(indexes, (std::vector<int>{1, 2}));
}

TEST_F(DeskTest, AfterAFullDiskCommandsAreTakenAgainThoughNothingWaited) {
  set_up_bench();
  full = true;
  act(at, {{"words", {"piston", "2"}}});
  settle();
  disk_works_again();
  act(at, {{"words", {"piston", "2"}}});
  settle();
  EXPECT_TRUE(answers.back());
}

TEST_F(DeskTest, ARefusalIsAnEntryTenAMinute) {
  set_up_bench();
  const std::size_t before = rows.size();
  for (int n = 0; n < 15; ++n) act(engine_use, {{"name", "none"}});
  settle();
  EXPECT_EQ(answers.size(), 15U);
  EXPECT_EQ(rows.size() - before, 10U);
  clock.time.mono_ns += 61'000'000'000;
  clock.time.wall_us += 61'000'000;
  act(engine_use, {{"name", "none"}});
  settle();
  EXPECT_EQ(Json::parse(rows.back())["held"], 5);
}

TEST_F(DeskTest, AClockStepIsSaidBeforeWhatFollows) {
  set_up_bench();
  clock.time.wall_us -= 3'600'000'000;
  press("82.950");
  settle();
  ASSERT_GE(rows.size(), 3U);
  const Json step = Json::parse(rows[rows.size() - 3]);  // then the reading and its alert
  EXPECT_EQ(step["kind"], "clock");
  EXPECT_EQ(step["step_us"], -3'600'000'000);
}

TEST_F(DeskTest, WaitingForAMasterEndsAfterTwoMinutes) {
  set_up_bench();
  act(master, {{"gauge", "mic"}, {"size", "75 mm"}});
  settle();
  clock.time.wall_us += 121'000'000;
  clock.time.mono_ns += 121'000'000'000;
  press("82.950");
  settle();
  EXPECT_TRUE(told("setting").empty()) << "too late to be a setting";
  EXPECT_EQ(told("reading").size(), 1U);
}

TEST_F(DeskTest, TheEndOfTheWaitingIsSaid) {
  set_up_bench();
  act(master, {{"gauge", "mic"}, {"size", "75 mm"}});
  settle();
  EXPECT_TRUE(desk.view().bench.gauges.at("mic").awaited);
  clock.time.wall_us += 120'000'000;
  clock.time.mono_ns += 120'000'000'000;
  act(operator_add, {{"name", "ann"}});  // the desk's timer is a real one: what is stored sets it anew
  run_until([this] { return !desk.view().bench.gauges.at("mic").awaited; });
  EXPECT_FALSE(desk.view().bench.gauges.at("mic").awaited);
  ASSERT_EQ(told("fault").size(), 1U);
  EXPECT_NE(told("fault")[0].find("nothing was set"), std::string::npos);
}

TEST_F(DeskTest, TheFrameThatSetAGaugeIsToldByItsSeqAndItsVoidIsAnEvent) {
  set_up_bench();
  act(master, {{"gauge", "mic"}, {"size", "75 mm"}});
  settle();
  std::int64_t became = 0;
  Frame frame{"mic", {"75.002", "75.002", Length::from_um(75'002), Unit::mm, true}, false, clock.now(), {}, 0, {}};
  desk.frame(frame, [&](std::int64_t seq) { became = seq; });
  settle();
  ASSERT_NE(find_setting(desk.view().bench, became), nullptr);
  events.clear();
  desk.happen("daemon", [&](Draft& draft) { doubt_damaged(draft, {became}); });
  settle();
  ASSERT_EQ(events.size(), 1U);
  EXPECT_EQ(events[0]["event"], "setting");
  EXPECT_EQ(events[0]["seq"], became);
  EXPECT_EQ(events[0]["state"], "void");
  EXPECT_EQ(events[0]["good"], false);
  EXPECT_EQ(events[0]["shown_mm"], 75.002);
  EXPECT_EQ(events[0]["reason"], "bytes beside its frame were damaged");
}

TEST_F(DeskTest, FoldingTheRowsGivesTheStateOnDisk) {
  set_up_bench();
  press("82.950");
  press("829.20");
  settle();
  Bench again;
  std::int64_t seq = 0;
  for (const std::string& row : rows) {
    const Json body = Json::parse(row);
    EXPECT_EQ(canonical(body), row);
    ++seq;
    apply(again, {seq, body, ""});
  }
  const Bench& stored = desk.view().bench;
  EXPECT_EQ(again.seq, stored.seq);
  EXPECT_EQ(again.reading_index, stored.reading_index);
  EXPECT_EQ(again.alerts.size(), stored.alerts.size());
  EXPECT_EQ(again.common.place, stored.common.place);
}

}  // namespace
}  // namespace tenth
