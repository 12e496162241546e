#include <gtest/gtest.h>

#include "tests/cli/program.hpp"
#include "tests/cli/sample_report.hpp"

namespace tenth::cli {
namespace {

Outcome check(const Json& report, std::vector<std::string> more = {}) {
  FakeDaemon daemon;
  daemon.answers("check", report);
  more.insert(more.begin(), "check");
  return run_at(daemon, more);
}

Json with_verdict(const Json& verdict) {
  return {{"engine", "K31"},
          {"title", ""},
          {"unit", "mm"},
          {"features", Json::array()},
          {"fits", Json::array()},
          {"spreads", Json::array()},
          {"checks", Json::array()},
          {"ready", Json::array()},
          {"verdict", verdict}};
}

TEST(Check, IsLaidOutForEightyColumns) {
  EXPECT_EQ(check(sample_report()).out, R"(K31: Inline six, 2.6 litre, in mm

Sizes                            mean   least    most
+ in         bore 1            83.012  83.010  83.015  round 0.003, taper 0.004
! out        bore 2            83.038  83.031  83.044  0.009 over 83.035
. incomplete bore 3            83.012  83.012  83.012  5 of 6 to measure
- no limits  main_journal      59.990  59.990  59.990  after grinding

Clearances                     least     most   from     to
! out        main_clearance 1  0.030 .. 0.033  0.035..0.060  0.005 under
? doubtful   main_clearance 2  0.035 .. 0.040  0.035..0.060  +-0.0025, aim 0.050
+ in         main_clearance 3  0.041 .. 0.046  0.035..0.060  aim 0.050
. incomplete main_clearance 4      - ..     -  0.035..0.060  to measure

Sameness                       spread  limit
! out        main_journal       0.006  0.005  0.001 over

Checks
. incomplete oil_feed_clear    later, plug missing

? doubtful: a limit lies within what the measurement is sure of, +-
round: two-point, so odd lobes are not seen
! out (3 out, 3 incomplete, 1 doubtful, 2 in); next: measure bore 3
)");
}

TEST(Check, InInchesAlignsTenths) {
  const auto lines = lines_of(check(sample_report(), {"--unit", "in"}).out);
  EXPECT_EQ(lines.at(0), "K31: Inline six, 2.6 litre, in inches");
  EXPECT_EQ(lines.at(4), "! out        bore 2            3.2692  3.2689  3.2695  0.0004 over 3.2691");
  EXPECT_EQ(lines.at(9), "! out        main_clearance 1  0.0012 .. 0.0013  0.0014..0.0024  0.0002 under");
}

TEST(Check, NeverPassesEightyColumns) {
  auto report = sample_report();
  report["features"][1]["feature"] = "a_feature_with_an_uncommonly_long_name";
  report["fits"][0]["fit"] = "thrust_bearing_clearance_of_the_crankshaft";
  report["checks"][0]["note"] = std::string(200, 'n');
  report["features"][0]["label"] = "L12345678901234567890123456";
  for (const auto* unit : {"mm", "in"})
    for (const auto& line : lines_of(check(report, {"--unit", unit}).out)) EXPECT_LE(line.size(), 80U) << line;
}

TEST(Check, AlignsThePointsOfAColumn) {
  auto report = sample_report();
  report["features"].push_back(size_of("deck", 1, 210.5, 210.5, 210.5, "in"));
  report["features"].push_back(size_of("lifter", 1, -1.5, -1.5, -1.5, "in"));
  const auto lines = lines_of(check(report).out);
  const auto point = lines.at(3).find('.', 15);
  for (std::size_t i = 4; i <= 8; ++i) EXPECT_EQ(lines.at(i).find('.', 15), point) << lines.at(i);
}

TEST(Check, AnExcessIsNeverRoundedToNothing) {
  auto report = sample_report();
  report["fits"][0]["reasons"] = Json::array({reason("clearance", 0.03496, 0.035, "lower", "out")});
  EXPECT_NE(check(report).out.find("0.00004 under"), std::string::npos);
}

TEST(Check, CountsAndLeadsOn) {
  auto report = with_verdict("in");
  report["features"] = Json::array({size_of("bore", 1, 83, 83, 83, "in")});
  EXPECT_TRUE(check(report).out.ends_with("\n+ in (1 in); next: hand it over with 'tenth export --format html'\n"));
  report["ready"] = {{{"act", "recheck"},
                      {"gauge", "a gauge with quite a long name"},
                      {"text", "check a gauge with quite a long name on its master again, to close the round"}}};
  EXPECT_TRUE(check(report).out.ends_with(
      "+ in (1 in)\n  next: check a gauge with quite a long name on its master again, to close the round\n"));
}

TEST(Check, AnswersWithItsExitStatus) {
  const auto exit = [](const Json& verdict, std::vector<std::string> more = {}) {
    return check(with_verdict(verdict), std::move(more)).exit;
  };
  EXPECT_EQ(exit("out"), 1);
  EXPECT_EQ(exit("out", {"--strict"}), 1);
  EXPECT_EQ(exit("out", {"--json"}), 1);
  EXPECT_EQ(exit("out", {"--ready"}), 1);
  for (const auto* verdict : {"doubtful", "incomplete"}) {
    EXPECT_EQ(exit(verdict), 0);
    EXPECT_EQ(exit(verdict, {"--strict"}), 1);
  }
  EXPECT_EQ(exit("in", {"--strict"}), 0);
  EXPECT_EQ(exit(nullptr, {"--strict"}), 0);
}

TEST(Check, WithJsonIsTheReport) {
  FakeDaemon daemon;
  daemon.answers("check", sample_report());
  const auto outcome = run_at(daemon, {"check", "--engine", "K31", "--json", "--unit", "in"});
  EXPECT_EQ(outcome.out, canonical(sample_report()) + "\n");
  EXPECT_EQ(daemon.asked("check"), (Json{{"engine", "K31"}, {"ready", false}}));
}

TEST(Ready, ListsWhatCanBeDoneNow) {
  EXPECT_EQ(check(sample_report(), {"--ready"}).out, "> measure bore 3\n    bore/3/top/pin, bore/3/middle/thrust\n");
  EXPECT_EQ(check(with_verdict("in"), {"--ready"}).out, "nothing is left to do\n");
  EXPECT_EQ(check(sample_report(), {"--ready", "--json"}).json(), sample_report().at("ready"));
}

TEST(Check, ShowsNoControlCharacters) {
  auto report = sample_report();
  report["title"] = "six\x1B[2J";
  report["checks"][0]["note"] = "a\nb";
  const auto out = check(report).out;
  EXPECT_EQ(out.find('\x1B'), std::string::npos);
  EXPECT_NE(out.find("a\\x0Ab"), std::string::npos);
}

}  // namespace
}  // namespace tenth::cli
