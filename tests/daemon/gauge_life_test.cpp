#include <gtest/gtest.h>

#include <cstdlib>

#include "daemon/gauge_view.hpp"
#include "schema/json/time.hpp"
#include "tests/daemon/workbench.hpp"

// Calibrations and their due days, and gauges that are put in doubt. The bench's clock begins at 2027-01-15T08:00:00Z.

namespace tenth {
namespace {

constexpr std::int64_t kHour = 3600;

class GaugeLife : public testing::Test {
 protected:
  void SetUp() override {
    setenv("TZ", "UTC", 1);
    bench.add_engine("K1", kTwin);
    bench.add_gauge("mic", {{"measures", "outside"}, {"uncertainty", "0.004 mm"}, {"serial", "S-7"}});
  }
  void TearDown() override { unsetenv("TZ"); }
  Result<Json> calibrate(const std::string& on, const std::string& due, const Json& more = Json::object()) {
    Json params = {{"name", "mic"}, {"on", on}, {"due", due}, {"certificate", "C-1"}};
    params.update(more);
    return bench.act(gauge_calibrate, params);
  }
  std::int64_t press(const std::string& index = "1", const std::string& shown = "82.950") {
    EXPECT_TRUE(bench.act(at, {{"words", {"piston", index}}}));
    bench.press("mic", shown);
    return bench.last_reading().seq;
  }
  Result<Json> doubt(const std::string& since, const std::string& gauge = "mic") {
    return bench.act(gauge_doubt, {{"name", gauge}, {"since", since}, {"reason", "its anvil is chipped"}});
  }
  /// The open alerts of a kind, but for the one that the spec's check should have come first.
  std::vector<Alert> open(AlertWhat what) const {
    std::vector<Alert> alerts;
    for (const Alert& alert : bench.bench.alerts)
      if (alert.cause.what == what && alert.state == AlertState::open && alert.cause.subject != "oil_ways_clear")
        alerts.push_back(alert);
    return alerts;
  }
  const Reading& at_seq(std::int64_t seq) const { return *find_reading(bench.bench, seq); }
  const Gauge& mic() const { return bench.bench.gauges.at("mic"); }
  Workbench bench;
};

TEST_F(GaugeLife, ACalibrationIsShownAndReadingsRestOnIt) {
  EXPECT_EQ(gauge_json(bench.view(), mic())["due"], nullptr);
  press();
  EXPECT_FALSE(bench.last_reading().calibration);
  const auto shown = calibrate("2026-03-01", "2027-03-01", {{"by", "the calibration room"}});
  ASSERT_TRUE(shown) << shown.error().message;
  EXPECT_EQ((*shown)["due"], "2027-03-01");
  EXPECT_EQ((*shown)["overdue"], false);
  EXPECT_EQ((*shown)["calibration"]["certificate"], "C-1");
  EXPECT_EQ((*shown)["calibration"]["by"], "the calibration room");
  EXPECT_EQ(gauge_status_json(bench.view(), mic())["due"], "2027-03-01");
  press("2");
  EXPECT_EQ(bench.last_reading().calibration, mic().calibration->entry);
  EXPECT_EQ(bench.last.front().body["calibration"], mic().calibration->entry);
  EXPECT_EQ(bench.last.front().body["overdue"], false);
}

TEST_F(GaugeLife, ItHoldsThroughTheDueDay) {
  ASSERT_TRUE(calibrate("2026-01-15", "2027-01-15"));
  bench.pass(16 * kHour - 1);  // 23:59:59
  EXPECT_FALSE(at_seq(press()).overdue);
  EXPECT_TRUE(open(AlertWhat::overdue).empty());
  bench.pass(1);  // the next day
  const std::int64_t late = press("2");
  EXPECT_TRUE(at_seq(late).overdue);
  EXPECT_EQ(at_seq(late).state, State::kept);
  EXPECT_EQ(gauge_json(bench.view(), mic())["overdue"], true);
  const auto alerts = open(AlertWhat::overdue);
  ASSERT_EQ(alerts.size(), 1U);
  EXPECT_EQ(alerts[0].cause.engine, "K1");
  EXPECT_EQ(alerts[0].cause.subject, "mic");
  EXPECT_EQ(alerts[0].cause.severity, Severity::look);
  EXPECT_EQ(alerts[0].cause.seqs, std::vector<std::int64_t>{late});
  EXPECT_NE(alerts[0].cause.text.find("2027-01-15"), std::string::npos);
  press("1");
  EXPECT_EQ(open(AlertWhat::overdue).size(), 1U) << "one for the engine";
}

TEST_F(GaugeLife, TheDayIsTheDaemonsOwn) {
  ASSERT_TRUE(calibrate("2026-01-15", "2027-01-15"));
  setenv("TZ", "TEST-16", 1);  // 16 h east: the 16th has just begun there
  EXPECT_TRUE(at_seq(press()).overdue);
  setenv("TZ", "TEST8", 1);  // 8 h west
  bench.pass(23 * kHour);    // 07:00 UTC on the 16th
  EXPECT_FALSE(at_seq(press()).overdue);
}

TEST_F(GaugeLife, TheDayIsThatOfTheFrameNotOfItsStoring) {
  ASSERT_TRUE(calibrate("2026-01-15", "2027-01-15"));
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "1"}}}));
  Frame frame;
  frame.gauge = "mic";
  frame.measurement = {"82.950", "82.950", Length::from_um(82'950), Unit::mm, true};
  frame.arrived = bench.now;
  const Instant later{bench.now.wall_us + 86'400'000'000, bench.now.mono_ns};
  Draft draft(bench.bench, {"tester", 1000, "gauge"}, later, "boot", bench.rules,
              bench.live);  // the disk had refused for a day
  take_frame(draft, frame);
  EXPECT_FALSE(bench.last_reading().overdue);
}

TEST_F(GaugeLife, ACalibrationAnewEndsTheAlertAndMarksNothingAnew) {
  ASSERT_TRUE(calibrate("2025-01-01", "2026-01-01"));
  const std::int64_t late = press();
  ASSERT_EQ(open(AlertWhat::overdue).size(), 1U);
  ASSERT_TRUE(calibrate("2027-01-15", "2028-01-15"));
  EXPECT_TRUE(open(AlertWhat::overdue).empty());
  EXPECT_TRUE(at_seq(late).overdue) << "it was, then";
  EXPECT_FALSE(at_seq(press("2")).overdue);
  EXPECT_TRUE(open(AlertWhat::overdue).empty());
}

TEST_F(GaugeLife, VoidingAllThatIsOverdueEndsTheAlert) {
  ASSERT_TRUE(calibrate("2025-01-01", "2026-01-01"));
  const std::int64_t late = press();
  ASSERT_TRUE(bench.act(void_readings, {{"first", late}, {"reason", "overdue"}}));
  EXPECT_TRUE(open(AlertWhat::overdue).empty());
}

TEST_F(GaugeLife, EveryEngineHearsOfItOnce) {
  ASSERT_TRUE(calibrate("2025-01-01", "2026-01-01"));
  press();
  bench.add_engine("K2", kTwin);
  ASSERT_TRUE(bench.act(engine_use, {{"name", "K2"}}));
  press();
  EXPECT_EQ(open(AlertWhat::overdue).size(), 2U);
  ASSERT_TRUE(calibrate("2027-01-15", "2028-01-15"));
  EXPECT_TRUE(open(AlertWhat::overdue).empty());
}

TEST_F(GaugeLife, StricterAnOverdueReadingIsSuspect) {
  bench.rules.overdue_suspect = true;
  ASSERT_TRUE(calibrate("2025-01-01", "2026-01-01"));
  const std::int64_t late = press();
  EXPECT_EQ(doubts(at_seq(late)), "overdue");
  EXPECT_EQ(at_seq(late).state, State::suspect);
  EXPECT_EQ(open(AlertWhat::overdue).size(), 1U);
  EXPECT_TRUE(open(AlertWhat::suspect).empty()) << "one alert says it";
  ASSERT_TRUE(bench.act(keep_readings, {{"first", late}, {"reason", "checked on two rings"}}));
  EXPECT_EQ(at_seq(late).state, State::kept);
  press("2", "8.295");
  EXPECT_EQ(open(AlertWhat::suspect).size(), 1U) << "other doubts speak for themselves";
}

TEST_F(GaugeLife, TheUncertaintyFoundStandsFromThenOn) {
  const std::int64_t before = press();
  ASSERT_TRUE(calibrate("2026-03-01", "2027-03-01", {{"uncertainty", "0.002 mm"}}));
  const std::int64_t after = press("2");
  EXPECT_EQ(at_seq(before).uncertainty, Length::from_um(4));
  EXPECT_EQ(at_seq(after).uncertainty, Length::from_um(2));
  EXPECT_EQ(gauge_json(bench.view(), mic())["uncertainty_mm"], 0.002);
  ASSERT_TRUE(calibrate("2026-04-01", "2027-04-01"));
  EXPECT_EQ(mic().uncertainty, Length::from_um(2)) << "one that says nothing leaves it";
  EXPECT_EQ(bench.last.front().body["previous"], at_seq(after).calibration);
}

TEST_F(GaugeLife, WrongWordsAreRefused) {
  const auto exit_of = [&](const Result<Json>& answer) { return answer ? Exit::done : answer.error().exit; };
  EXPECT_EQ(exit_of(calibrate("2027-03-01", "2027-02-28")), Exit::words);
  EXPECT_EQ(exit_of(calibrate("2027-02-30", "2027-03-28")), Exit::words);
  EXPECT_EQ(exit_of(calibrate("2027-01-02", "next year")), Exit::words);
  EXPECT_EQ(exit_of(calibrate("2027-01-02", "2027-01-02", {{"certificate", nullptr}})), Exit::words);
  EXPECT_EQ(exit_of(calibrate("2027-01-02", "2027-01-02", {{"uncertainty", "-1 um"}})), Exit::words);
  EXPECT_EQ(exit_of(calibrate("2027-01-02", "2027-01-02", {{"name", "nobody"}})), Exit::refused);
  EXPECT_EQ(exit_of(bench.act(gauge_calibrate, {{"name", "mic"}, {"on", "2027-01-02"}, {"certificate", "C"}})),
            Exit::words);
  EXPECT_EQ(exit_of(doubt("yesterday")), Exit::words);
  EXPECT_EQ(exit_of(doubt("2027-01-15", "nobody")), Exit::refused);
  EXPECT_EQ(exit_of(bench.act(gauge_doubt, {{"name", "mic"}, {"since", "2027-01-15"}, {"reason", " "}})), Exit::words);
  EXPECT_EQ(exit_of(calibrate("2027-01-16", "2028-01-16")), Exit::refused) << "a day that is yet to come";
  EXPECT_EQ(exit_of(calibrate("2027-01-02", "2027-01-02")), Exit::done);
}

TEST_F(GaugeLife, ANameStaysWithItsInstrumentAndItsCalibration) {
  ASSERT_TRUE(calibrate("2026-03-01", "2027-03-01", {{"uncertainty", "0.002 mm"}}));
  ASSERT_TRUE(bench.act(gauge_drop, {{"name", "mic"}}));
  const auto other = bench.act(
      gauge_add, {{"name", "mic"}, {"port", "/dev/mic"}, {"profile", "line"}, {"gauge_unit", "mm"}, {"serial", "S-8"}});
  ASSERT_FALSE(other);
  EXPECT_EQ(other.error().exit, Exit::refused);
  const auto unnamed =
      bench.act(gauge_add, {{"name", "mic"}, {"port", "/dev/mic"}, {"profile", "line"}, {"gauge_unit", "mm"}});
  EXPECT_FALSE(unnamed) << "without a serial number nobody knows that it is the same";
  bench.add_gauge("mic", {{"serial", "S-7"}});
  EXPECT_EQ(mic().calibration->due, "2027-03-01");
  EXPECT_EQ(mic().uncertainty, Length::from_um(2));
}

TEST_F(GaugeLife, EveryReadingSinceThenIsInDoubtOnEveryEngine) {
  const std::int64_t before = press();
  bench.pass(kHour);
  const std::string since = rfc3339(bench.now.wall_us);
  const std::int64_t first = press("1");
  const std::int64_t second = press("2");
  bench.add_engine("K2", kTwin);
  ASSERT_TRUE(bench.act(engine_use, {{"name", "K2"}}));
  const std::int64_t other = press("1");
  const auto answer = doubt(since);
  ASSERT_TRUE(answer) << answer.error().message;
  EXPECT_EQ((*answer)["seqs"], (Json::array({first, second, other})));
  EXPECT_EQ(bench.kinds(), (std::vector<std::string>{"gauge_doubt", "doubt", "doubt", "alert", "alert", "alert_end"}));
  EXPECT_EQ(bench.last[1].body["engine"], "K1");
  EXPECT_EQ(bench.last[1].body["reason"], "its anvil is chipped");
  EXPECT_EQ(at_seq(before).state, State::kept);
  for (const std::int64_t seq : {first, second, other}) {
    EXPECT_EQ(at_seq(seq).state, State::suspect);
    EXPECT_EQ(doubts(at_seq(seq)), "gauge");
  }
  const auto alerts = open(AlertWhat::gauge);
  ASSERT_EQ(alerts.size(), 2U);
  EXPECT_EQ(alerts[0].cause.subject, "mic");
  EXPECT_EQ(alerts[0].cause.severity, Severity::stop);
  EXPECT_TRUE(open(AlertWhat::suspect).empty()) << "one alert for each engine, not one for each place";
}

TEST_F(GaugeLife, ADayBeginsWhereTheDaemonRuns) {
  setenv("TZ", "TEST-9", 1);  // 9 h east: it is 17:00 there, and the day began at 15:00 UTC the day before
  const std::int64_t reading = press();
  EXPECT_EQ((*doubt("2027-01-16"))["seqs"], Json::array());
  EXPECT_EQ((*doubt("2027-01-15"))["since"], "2027-01-14T15:00:00.000000Z");
  EXPECT_EQ(doubts(at_seq(reading)), "gauge");
}

TEST_F(GaugeLife, OtherGaugesAreNotTouched) {
  bench.add_gauge("mic2", {{"measures", "outside"}});
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "1"}}}));
  bench.press("mic2", "82.950");
  const std::int64_t other = bench.last_reading().seq;
  ASSERT_TRUE(doubt("2027-01-15"));
  EXPECT_EQ(at_seq(other).state, State::kept);
}

TEST_F(GaugeLife, KeepAnswersTheDoubtAndEndsTheAlert) {
  const std::int64_t one = press("1"), two = press("2");
  ASSERT_TRUE(doubt("2027-01-15"));
  ASSERT_TRUE(bench.act(keep_readings, {{"first", one}, {"reason", "measured again with another"}}));
  EXPECT_EQ(open(AlertWhat::gauge).size(), 1U);
  ASSERT_TRUE(bench.act(void_readings, {{"first", two}, {"reason", "chipped"}}));
  EXPECT_TRUE(open(AlertWhat::gauge).empty());
  ASSERT_TRUE(doubt("2027-01-15"));
  EXPECT_EQ(at_seq(one).state, State::suspect) << "put in doubt again";
  EXPECT_EQ(at_seq(two).state, State::voided);
}

TEST_F(GaugeLife, AVoidReadingKeptLaterStillTellsTheDoubt) {
  const std::int64_t one = press("1");
  ASSERT_TRUE(bench.act(void_readings, {{"first", one}, {"reason", "burr"}}));
  ASSERT_TRUE(doubt("2027-01-15"));
  EXPECT_EQ(at_seq(one).state, State::voided);
  EXPECT_EQ(doubts(at_seq(one)), "gauge");
}

TEST_F(GaugeLife, AGaugeIsFoundBadAfterItWasDropped) {
  const std::int64_t one = press("1");
  ASSERT_TRUE(bench.act(gauge_drop, {{"name", "mic"}}));
  ASSERT_TRUE(doubt("2027-01-15"));
  EXPECT_EQ(doubts(at_seq(one)), "gauge");
  EXPECT_EQ(open(AlertWhat::gauge).size(), 1U);
}

TEST_F(GaugeLife, ADoubtThatReachesNothingIsStillOnRecord) {
  ASSERT_TRUE(doubt("2027-01-15T08:00:00Z"));
  EXPECT_EQ(bench.kinds(), std::vector<std::string>{"gauge_doubt"});
}

TEST_F(GaugeLife, TheChoiceIsTheRecordsToTell) {
  press("1");
  ASSERT_TRUE(doubt("2027-01-15"));
  ASSERT_FALSE(bench.bench.choices.empty());
  EXPECT_NE(bench.bench.choices.back().text.find("mic"), std::string::npos);
  EXPECT_EQ(bench.bench.choices.back().reason, "its anvil is chipped");
}

}  // namespace
}  // namespace tenth
