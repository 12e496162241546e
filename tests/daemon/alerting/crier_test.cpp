#include "daemon/alerting/crier.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/daemon/alerting/alert.hpp"
#include "tests/daemon/hand_clock.hpp"

namespace tenth {
namespace {

class Cried : public testing::Test {
 protected:
  std::int64_t now() const { return clock_.now().mono_ns; }
  bool hear(const Json& event) { return crier_.hear(event, now()); }
  /// Lets time pass to the next telling; in milliseconds.
  std::int64_t wait() {
    const std::int64_t ms = (crier_.next_ns().value() - now()) / 1'000'000;
    clock_.pass(ms);
    return ms;
  }

  HandClock clock_;
  Crier crier_;
};

TEST_F(Cried, AnOpenAlertIsToldAgainAtLongerIntervalsUpToAnHour) {
  EXPECT_TRUE(hear(alert(7)));
  std::vector<std::int64_t> minutes;
  for (std::size_t again = 1; again <= 8; ++again) {
    minutes.push_back(wait() / 60'000);
    const auto told = crier_.due(now());
    ASSERT_EQ(told.size(), 1U);
    Json expected = alert(7);
    expected["again"] = again;
    EXPECT_EQ(told[0], expected);
  }
  EXPECT_EQ(minutes, (std::vector<std::int64_t>{1, 2, 5, 10, 30, 60, 60, 60}));
}

TEST_F(Cried, NothingIsDueBeforeItsTime) {
  hear(alert(7));
  clock_.pass(59'999);
  EXPECT_TRUE(crier_.due(now()).empty());
  clock_.pass(1);
  EXPECT_EQ(crier_.due(now()).size(), 1U);
  EXPECT_TRUE(crier_.due(now()).empty());
}

TEST_F(Cried, WhatEndedOrWasClearedIsToldOnceAndThenNoMore) {
  for (const char* last : {"ended", "cleared"}) {
    hear(alert(7));
    hear(alert(8));
    EXPECT_TRUE(hear(alert(7, last)));
    wait();
    const auto told = crier_.due(now());
    ASSERT_EQ(told.size(), 1U);
    EXPECT_EQ(told[0]["id"], 8);
    EXPECT_TRUE(hear(alert(8, last)));
    EXPECT_FALSE(crier_.next_ns());
    clock_.pass(20'000);
  }
}

TEST_F(Cried, SilenceClearsNothing) {
  hear(alert(7));
  for (int day = 0; day < 24 * 30; ++day) {
    wait();
    EXPECT_EQ(crier_.due(now()).size(), 1U);
  }
}

TEST_F(Cried, AnAlertOfBeforeTheStartIsToldAgain) {
  crier_.resume(alert(7), now());
  EXPECT_TRUE(crier_.due(now()).empty());
  EXPECT_EQ(wait(), 60'000);
  EXPECT_EQ(crier_.due(now()).at(0)["again"], 1);
}

TEST_F(Cried, AFloodBecomesOneSummary) {
  for (int id = 1; id <= 10; ++id) EXPECT_TRUE(hear(alert(id))) << id;
  clock_.pass(9'000);
  for (int id = 11; id <= 25; ++id) EXPECT_FALSE(hear(alert(id, "open", id % 3 == 0 ? "stop" : "look"))) << id;
  EXPECT_FALSE(hear(alert(12, "ended", "stop")));  // one of the stops is over before the summary
  EXPECT_EQ(wait(), 1'000);
  const auto told = crier_.due(now());
  ASSERT_EQ(told.size(), 1U);
  EXPECT_EQ(told[0]["event"], "alerts");
  EXPECT_EQ(told[0]["count"], 15);
  EXPECT_EQ(told[0]["open"], 14);
  EXPECT_EQ(told[0]["stop"], 4);
  EXPECT_EQ(told[0]["ids"].size(), 15U);
  EXPECT_EQ(told[0]["text"], "15 more alerts at once, 4 of them to stop for: `tenth alerts` lists them");
  EXPECT_TRUE(crier_.due(now()).empty());
  EXPECT_TRUE(hear(alert(30)));  // and after it they are told one by one
}

TEST_F(Cried, TenInTenSecondsAreNoFloodAndOneMoreIsToldAsItIs) {
  for (int id = 1; id <= 10; ++id) EXPECT_TRUE(hear(alert(id)));
  EXPECT_FALSE(hear(alert(11)));
  wait();
  EXPECT_EQ(crier_.due(now()), std::vector<Json>{alert(11)});
}

TEST_F(Cried, WhatIsSaidOfOneAlertStaysInOrder) {
  for (int id = 1; id <= 10; ++id) hear(alert(id));
  hear(alert(11));
  clock_.pass(15'000);  // the summary is due, but nobody asked yet
  EXPECT_FALSE(hear(alert(11, "ended")));
  EXPECT_EQ(crier_.due(now()), std::vector<Json>{alert(11, "ended")});
}

TEST_F(Cried, ManyToldAgainAtOnceAreAFloodToo) {
  for (int id = 1; id <= 15; ++id) crier_.resume(alert(id), now());
  wait();
  EXPECT_EQ(crier_.due(now()).size(), 10U);
  EXPECT_EQ(wait(), 10'000);
  const auto rest = crier_.due(now());
  ASSERT_EQ(rest.size(), 1U);
  EXPECT_EQ(rest[0]["count"], 5);
}

/// Whatever happens, in whatever time: an alert that is open is told within an hour and a window, one that is over is
/// not told again, and no window has more than its ten and a summary.
RC_GTEST_PROP(CriedProperty, NoOpenAlertIsForgottenAndNoClosedOneRemembered, ()) {
  Crier crier;
  HandClock clock;
  std::map<std::int64_t, std::int64_t> last_told;  // of open ones
  const auto note = [&](const Json& event) {
    const Json ids = event.at("event") == "alerts" ? event.at("ids") : Json::array({event.at("id")});
    for (const Json& id : ids)
      if (last_told.contains(id)) last_told[id] = clock.now().mono_ns;
  };
  const auto happenings = *rc::gen::container<std::vector<std::pair<int, int>>>(
      rc::gen::pair(rc::gen::inRange(0, 30), rc::gen::inRange(0, 1'200'000)));
  for (const auto& [id, pause_ms] : happenings) {
    const bool over = last_told.contains(id);
    if (over)
      last_told.erase(id);
    else
      last_told[id] = clock.now().mono_ns;
    crier.hear(alert(id, over ? "ended" : "open"), clock.now().mono_ns);
    for (std::int64_t left_ms = pause_ms; left_ms > 0; left_ms -= 1'000) {
      const auto told = crier.due(clock.now().mono_ns);
      RC_ASSERT(told.size() <= 11U);
      for (const Json& event : told) {
        RC_ASSERT(event.at("event") == "alerts" || !event.contains("again") || last_told.contains(event.at("id")));
        note(event);
      }
      clock.pass(1'000);
    }
    for (const auto& [open, when_ns] : last_told) RC_ASSERT(clock.now().mono_ns - when_ns <= 3'612'000'000'000);
  }
}

}  // namespace
}  // namespace tenth
