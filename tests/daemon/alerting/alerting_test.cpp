#include "daemon/alerting/alerting.hpp"

#include <gtest/gtest.h>

#include <boost/asio/io_context.hpp>

#include "tests/daemon/alerting/alert.hpp"
#include "tests/daemon/hand_clock.hpp"
#include "tests/daemon/log_text.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

using std::chrono::milliseconds;

struct Notebook : AlertSink {
  explicit Notebook(std::vector<std::string>& into) : lines(into) {}
  void tell(std::string line) override { lines.push_back(std::move(line)); }
  std::vector<std::string>& lines;
};

class AlertingTest : public testing::Test {
 protected:
  std::unique_ptr<Alerting> alerting(const Clock& clock, Crier crier = {}) {
    AlertSinks sinks;
    sinks.push_back(std::make_unique<Notebook>(brought_));
    return std::make_unique<Alerting>(
        loop_.get_executor(), clock, std::move(sinks), [this](const Json& event) { told_.push_back(event); },
        std::move(crier));
  }

  boost::asio::io_context loop_;
  HandClock clock_;
  std::vector<std::string> brought_;
  std::vector<Json> told_;
  LogText log_;
};

TEST_F(AlertingTest, AnAlertIsBroughtAndLoggedAtOnceAndNothingElseIs) {
  const auto alerts = alerting(clock_);
  alerts->hear({{"event", "reading"}, {"seq", 1}});
  Json again = alert(7);
  again["again"] = 1;
  alerts->hear(again);  // its own words, come back
  alerts->hear({{"event", "alerts"}, {"count", 12}});
  alerts->hear(alert(7));
  alerts->hear(alert(7, "ended"));
  EXPECT_EQ(brought_, (std::vector<std::string>{canonical(alert(7)), canonical(alert(7, "ended"))}));
  EXPECT_TRUE(told_.empty());  // those who watch heard of it already
  EXPECT_NE(log_.str().find("alert 7 stop: bore 3 is out"), std::string::npos);
  EXPECT_NE(log_.str().find("alert 7 ended: bore 3 is out"), std::string::npos);
}

TEST_F(AlertingTest, WhatIsToldAgainIsToldToThoseWhoWatchToo) {
  const auto alerts = alerting(clock_);
  alerts->hear(alert(7));
  clock_.pass(60'000);
  alerts->tell_due();
  ASSERT_EQ(told_.size(), 1U);
  EXPECT_EQ(told_[0]["again"], 1);
  EXPECT_EQ(brought_.size(), 2U);
  EXPECT_NE(log_.str().find("alert 7 stop (again): bore 3 is out"), std::string::npos);
}

TEST_F(AlertingTest, WhatIsToldAgainHasItsFiguresOfThen) {
  Workbench bench;
  bench.add_engine("K1", kTwin);
  const auto gap = [&bench](const char* value) {
    ASSERT_TRUE(bench.act(at, {{"words", {"ring_gap", "1"}}}));
    ASSERT_TRUE(bench.act(enter, {{"value", value}, {"again", value}}));
  };
  gap("0.80");
  const auto alerts = alerting(clock_);
  alerts->start(bench.bench);
  gap("0.85");
  clock_.pass(60'000);
  alerts->tell_due();
  ASSERT_EQ(told_.size(), 1U);
  EXPECT_EQ(told_[0]["value_mm"], 0.85);
  EXPECT_EQ(told_[0]["again"], 1);
}

TEST_F(AlertingTest, EachOfAFloodIsLoggedThoughTheyAreBroughtTogether) {
  const auto alerts = alerting(clock_);
  for (int id = 1; id <= 30; ++id) alerts->hear(alert(id));
  EXPECT_EQ(brought_.size(), 10U);
  EXPECT_NE(log_.str().find("alert 30 stop"), std::string::npos);
  clock_.pass(10'000);
  alerts->tell_due();
  ASSERT_EQ(brought_.size(), 11U);
  EXPECT_EQ(told_.at(0)["count"], 20);
}

TEST_F(AlertingTest, OneThatWasHeldBackIsBroughtLateButThoseWhoWatchKnowIt) {
  const auto alerts = alerting(clock_);
  for (int id = 1; id <= 11; ++id) alerts->hear(alert(id));
  clock_.pass(10'000);
  alerts->tell_due();
  EXPECT_EQ(brought_.back(), canonical(alert(11)));
  EXPECT_TRUE(told_.empty());
}

TEST_F(AlertingTest, TheLoopWakesForWhatIsDue) {
  const SystemClock real;
  const auto alerts = alerting(real, Crier({{milliseconds(20), milliseconds(30)}, 10, milliseconds(10)}));
  alerts->hear(alert(7));
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(20);
  while (told_.size() < 3 && std::chrono::steady_clock::now() < end) loop_.run_for(milliseconds(5));
  EXPECT_GE(told_.size(), 3U);
  alerts->hear(alert(7, "cleared"));
  const std::size_t told = told_.size();
  loop_.restart();
  EXPECT_EQ(loop_.run_for(milliseconds(100)), 1U);  // the wait that was called off; nothing waits any more
  EXPECT_EQ(told_.size(), told);
}

TEST_F(AlertingTest, WhatTheLedgerHasOpenIsToldAgainAfterAStart) {
  Bench bench;
  for (const AlertState state : {AlertState::open, AlertState::ended, AlertState::cleared}) {
    Alert one;
    one.id = static_cast<std::int64_t>(bench.alerts.size()) + 1;
    one.state = state;
    bench.alerts.push_back(one);
  }
  const auto alerts = alerting(clock_);
  alerts->start(bench);
  EXPECT_TRUE(brought_.empty());
  clock_.pass(60'000);
  alerts->tell_due();
  ASSERT_EQ(told_.size(), 1U);
  EXPECT_EQ(told_[0]["id"], 1);
}

}  // namespace
}  // namespace tenth
