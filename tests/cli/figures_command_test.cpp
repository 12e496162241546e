#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

// Pictures and tables of what a study, a chart and a budget say.

namespace tenth::cli {
namespace {

TEST(Charts, DrawTheChecksBetweenWhatIsAllowed) {
  FakeDaemon daemon;
  Json checks = Json::array();
  for (const double drift : {0.0, 0.001, -0.0025}) checks.push_back({{"seq", 1}, {"drift_mm", drift}});
  daemon.answers("charts",
                 {{"gauge", "bore"},
                  {"unit", "mm"},
                  {"allowed_mm", 0.0025},
                  {"checks", checks},
                  {"individuals",
                   {{"mean_mm", -0.0005},
                    {"lower_mm", -0.0045},
                    {"upper_mm", 0.0035},
                    {"fired", {{{"rule", "nine_on_one_side"}, {"seq", 7}}}}}},
                  {"ewma", Json::array()},
                  {"cusum", Json::array()},
                  {"drift_per_month", {{"value_mm", -0.001}, {"lower_mm", -0.002}, {"upper_mm", 0.0}, {"real", false}}},
                  {"set_again", {{"likely_days", 76.2}, {"earliest_days", nullptr}}}});
  EXPECT_EQ(run_at(daemon, {"charts", "bore"}).out,
            R"(gauge bore: 3 checks on its master, in mm; = allowed, - limits of chance, . mean
             |   
      0.0035 |---
      0.0025 |===
             |   
             | o 
      0.0000 |o  
     -0.0005 |...
             |   
     -0.0025 |==o
             |   
     -0.0045 |---
! sign       nine on one side  #7
drift a month -0.0010, 95 %: -0.0020 .. 0.0000; it may be none
set again: likely 76 days after a setting, at the earliest never at this drift
)");
}

TEST(StudyOfMasters, IsPlannedAndTellsTheMasterOfItsNextTurn) {
  FakeDaemon daemon;
  daemon.answers("study.plan", {{"study", "m"},
                                {"what", "linearity"},
                                {"gauge", "mic"},
                                {"unit", "mm"},
                                {"master_mm", nullptr},
                                {"shown_mm", nullptr},
                                {"done", 0},
                                {"of", 30},
                                {"next_mm", 50.0},
                                {"turns", 30}});
  EXPECT_EQ(run_at(daemon, {"study", "plan", "m", "--gauge", "mic", "--linearity", "--masters", "25,50,75"}).out,
            "> study      m: 0 of 30 turns taken; the next press of mic is on its master 50.000 mm\n");
  EXPECT_EQ(
      daemon.asked("study.plan"),
      (Json{{"name", "m"}, {"gauge", "mic"}, {"what", "linearity"}, {"masters", {"25", "50", "75"}}, {"trials", 10}}));
  EXPECT_EQ(run_at(daemon, {"study", "plan", "m", "--gauge", "mic", "--bias"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"study", "plan", "m", "--gauge", "mic"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"study", "plan", "m", "--gauge", "mic", "--bias", "--linearity", "--masters", "25"}).exit,
            2);
}

TEST(StudyOfMasters, TellsWhatATurnShowedAndWhereTheResultIs) {
  FakeDaemon daemon;
  daemon.answers("enter", {{"study",
                            {{"study", "m"},
                             {"what", "bias"},
                             {"gauge", "mic"},
                             {"unit", "mm"},
                             {"master_mm", 25.0},
                             {"shown_mm", 25.001},
                             {"done", 2},
                             {"of", 2},
                             {"next_mm", nullptr}}}});
  EXPECT_EQ(run_at(daemon, {"enter", "25.001", "--again", "25.001"}).out,
            "+ on master  25.000 mm, shows 25.001 mm\n> study      m: 2 of 2 turns taken; see 'tenth study bias m'\n");
}

TEST(Budget, TellsEachTermAndWhatWouldDecide) {
  FakeDaemon daemon;
  daemon.answers(
      "budget",
      {{"fit", "main_clearance"},
       {"label", "3"},
       {"unit", "mm"},
       {"verdict", "doubtful"},
       {"min_mm", 0.056},
       {"max_mm", 0.056},
       {"lower_mm", 0.040},
       {"upper_mm", 0.060},
       {"uncertainty_mm", 0.005},
       {"room_mm", 0.004},
       {"terms",
        {{{"side", "inside"}, {"feature", "bearing"}, {"value_mm", 0.003}, {"source", "gauge"}, {"gauge", "bore"}},
         {{"side", "outside"},
          {"feature", "journal"},
          {"value_mm", 0.004},
          {"source", "temperature"},
          {"material", "steel"},
          {"expansion", "11.3"},
          {"within_k", "0.5"}}}},
       {"settling", {{{"side", "outside"}, {"source", "temperature"}, {"at_most_mm", 0.0026}, {"within_k", "0.3"}}}}});
  const std::string out = run_at(daemon, {"check", "--budget", "main_clearance", "3"}).out;
  EXPECT_NE(out.find("gauge bore, as stated"), std::string::npos) << out;
  EXPECT_NE(out.find("+-0.5 K, steel 11.3e-6/K"), std::string::npos) << out;
  EXPECT_NE(out.find("with +-0.00400 it would be decided, by one of:\n> soaked parts"), std::string::npos) << out;
  for (const std::string& line : lines_of(out)) EXPECT_LE(line.size(), 80U) << line;
}

TEST(Temperature, SendsTheWordsAsTyped) {
  FakeDaemon daemon;
  daemon.answers("temperature", {{"features", {"piston"}},
                                 {"part", "75F"},
                                 {"gauge_at", "72F"},
                                 {"within", "1"},
                                 {"life_h", 4},
                                 {"uncorrected", {"cap"}}});
  const auto outcome = run_at(daemon, {"temperature", "--part", "75F", "--gauge", "72F", "--within", "1", "piston"});
  EXPECT_EQ(daemon.asked("temperature"),
            (Json{{"part", "75F"}, {"gauge", "72F"}, {"within", "1"}, {"features", {"piston"}}}));
  EXPECT_EQ(
      outcome.out,
      "piston at 75F, gauge at 72F, within 1 K, for 4 h\nnot corrected, since the spec names no known material: cap\n");
}

TEST(Check, ShowsRepeatsThatDoNotFit) {
  FakeDaemon daemon;
  daemon.answers("check", {{"engine", "K1"},
                           {"unit", "mm"},
                           {"features", Json::array()},
                           {"fits", Json::array()},
                           {"spreads", Json::array()},
                           {"checks", Json::array()},
                           {"ready", Json::array()},
                           {"verdict", "in"},
                           {"outliers",
                            {{{"seq", 9},
                              {"feature", "bore"},
                              {"index", 1},
                              {"label", "1"},
                              {"level", nullptr},
                              {"axis", nullptr},
                              {"size_mm", 83.9},
                              {"among", 5}}}}});
  EXPECT_NE(run_at(daemon, {"check"}).out.find("? outlier    bore 1 83.900 mm, one of 5 repeats  #9"),
            std::string::npos);
}

}  // namespace
}  // namespace tenth::cli
