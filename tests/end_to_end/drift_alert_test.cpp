// However many readings a drift puts in doubt: one alert.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class DriftAlert : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("dial", {"--unit", "mm", "--reads", "deviation"});
    done({"master", "dial", "54.000"});
    cable("dial").send(line("0.000"));
    watch_->next("setting");
    done({"round", "main_journal"});
    for (int i = 0; i < 5; ++i) press("dial", line("-0.010"));
  }
};

TEST_F(DriftAlert, IsOneHoweverManyReadings) {
  done({"recheck", "dial"});
  cable("dial").send(line("0.010"));
  EXPECT_EQ(watch_->next("setting")["good"], false);
  const json alerts = asked({"alerts"});
  ASSERT_EQ(alerts.size(), 1U) << alerts.dump(1);
  EXPECT_EQ(alerts[0]["what"], "drift");
  EXPECT_EQ(alerts[0]["seqs"].size(), 5U);
}

TEST_F(DriftAlert, OfAGaugeInDoubtIsOneForTheEngine) {
  done({"gauge", "doubt", "dial", "--since", "2026-01-01", "--reason", "it fell"});
  const json alerts = asked({"alerts"});
  ASSERT_EQ(alerts.size(), 1U) << alerts.dump(1);
  EXPECT_EQ(alerts[0]["what"], "gauge");
}

}  // namespace
}  // namespace acceptance
