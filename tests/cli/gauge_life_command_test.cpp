#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

// Masters, corrections of settings, calibrations and doubts: what is sent, and what a person reads.

namespace tenth::cli {
namespace {

Json waiting(const Json& more) {
  Json answer = {{"gauge", "bore"},   {"master_mm", 83.0012}, {"unit", "mm"},    {"within_s", 120},
                 {"master", nullptr}, {"in", nullptr},        {"overdue", false}};
  answer.update(more);
  return answer;
}

TEST(MasterByName, IsSentAsItWasTyped) {
  FakeDaemon daemon;
  daemon.answers("master", waiting({{"master", "R83"}}));
  EXPECT_EQ(run_at(daemon, {"master", "bore", "R83"}).out,
            "> press bore on its master of 83.0012 mm (R83) within 120 s\n");
  EXPECT_EQ(daemon.asked("master"), (Json{{"gauge", "bore"}, {"size", "R83"}}));
  EXPECT_EQ(run_at(daemon, {"master", "bore", "ring 83"}).exit, 0);
  EXPECT_EQ(daemon.asked("master").at("size"), "ring 83");
}

TEST(MasterByName, ACertificatePastItsDueDayIsSaid) {
  FakeDaemon daemon;
  daemon.answers("master", waiting({{"master", "R83"}, {"overdue", true}}));
  EXPECT_EQ(
      run_at(daemon, {"master", "bore", "R83"}).out,
      "> press bore on its master of 83.0012 mm (R83) within 120 s\n! the certificate of R83 is past its due day\n");
}

TEST(MasterIn, NamesTheOtherGauge) {
  FakeDaemon daemon;
  daemon.answers("master", waiting({{"in", "mic"}}));
  EXPECT_EQ(run_at(daemon, {"master", "bore", "--in", "mic"}).out,
            "> press bore on its master of 83.0012 mm in mic within 120 s\n");
  EXPECT_EQ(daemon.asked("master"), (Json{{"gauge", "bore"}, {"in", "mic"}}));
}

TEST(MasterCorrect, SendsTheSettingAndTheSize) {
  FakeDaemon daemon;
  daemon.answers("master.correct", {{"setting", 41},
                                    {"gauge", "bore"},
                                    {"master_mm", 83.01},
                                    {"unit", "mm"},
                                    {"settings", {41}},
                                    {"seqs", {42, 43}}});
  const auto outcome = run_at(daemon, {"master", "--correct", "41", "83.010", "mm", "--reason", "other ring"});
  EXPECT_EQ(outcome.out, "+ setting 41 of bore was made on 83.010 mm; 2 readings follow\n") << outcome.err;
  EXPECT_EQ(daemon.asked("master.correct"), (Json{{"setting", 41}, {"size", "83.010 mm"}, {"reason", "other ring"}}));
  daemon.answers(
      "master.correct",
      {{"setting", 41}, {"gauge", "bore"}, {"master_mm", 83.01}, {"unit", "in"}, {"settings", {41}}, {"seqs", {42}}});
  EXPECT_EQ(run_at(daemon, {"--unit", "in", "master", "--correct", "41", "3.268", "--reason", "r"}).out,
            "+ setting 41 of bore was made on 3.26811 in; 1 reading follows\n");
  EXPECT_EQ(daemon.asked("master.correct").at("unit"), "in");
}

TEST(MasterWords, ThatAreWrongReachNoDaemon) {
  const FakeDaemon daemon;
  const std::vector<std::vector<std::string>> wrong = {
      {"master", "bore"},
      {"master"},
      {"master", "bore", "83 furlong"},
      {"master", "bore", "R83", "--in", "mic"},
      {"master", "bore", "R83", "--reason", "why"},
      {"master", "--correct", "41", "wide", "--reason", "r"},
      {"master", "--correct", "41", "83 mm"},
      {"master", "--correct", "x", "83 mm", "--reason", "r"},
      {"master", "--correct", "41..43", "83 mm", "--reason", "r"},
      {"master", "--correct", "41", "83 mm", "--reason", " "},
      {"master", "--correct", "41", "83 mm", "--in", "mic", "--reason", "r"},
      {"masters", "add", "R83"},
      {"masters", "add", "R83", "wide"},
      {"masters", "drop"},
      {"masters"}};
  for (const auto& words : wrong) EXPECT_EQ(run_at(daemon, words).exit, 2) << words.back();
  EXPECT_TRUE(daemon.calls().empty());
}

TEST(MastersAdd, SendsWhatIsKnownOfIt) {
  FakeDaemon daemon;
  const Json ring = {{"seq", 9},
                     {"name", "R83"},
                     {"size_mm", 83.0012},
                     {"unit", "mm"},
                     {"certificate", "C-1"},
                     {"due", "2027-03-01"},
                     {"uncertainty_mm", 0.0008},
                     {"overdue", false}};
  daemon.answers("masters.add", ring);
  const auto outcome = run_at(daemon, {"masters", "add", "R83", "83.0012", "mm", "--certificate", "C-1", "--due",
                                       "2027-03-01", "--uncertainty", "0.0008 mm"});
  EXPECT_EQ(outcome.out, "+ master     R83, 83.0012 mm, uncertainty 0.0008 mm, certificate C-1, due 2027-03-01\n")
      << outcome.err;
  EXPECT_EQ(daemon.asked("masters.add"), (Json{{"name", "R83"},
                                               {"size", "83.0012 mm"},
                                               {"certificate", "C-1"},
                                               {"due", "2027-03-01"},
                                               {"uncertainty", "0.0008 mm"}}));
}

TEST(MastersList, ShowsWhatIsPastItsDueDay) {
  FakeDaemon daemon;
  daemon.answers(
      "masters.list",
      Json::array({{{"name", "R83"}, {"size_mm", 83}, {"unit", "mm"}, {"due", "2025-03-01"}, {"overdue", true}}}));
  EXPECT_EQ(run_at(daemon, {"masters", "list"}).out, "! overdue    R83, 83.000 mm, due 2025-03-01\n");
  daemon.answers("masters.list", Json::array());
  EXPECT_EQ(run_at(daemon, {"masters", "list"}).out, "no master yet; add one with 'tenth masters add'\n");
  EXPECT_EQ(run_at(daemon, {"--json", "masters", "list"}).json(), Json::array());
  daemon.answers("masters.drop", {{"name", "R83"}});
  EXPECT_EQ(run_at(daemon, {"masters", "drop", "R83"}).out, "master R83 dropped; what was set on it stays\n");
}

TEST(GaugeCalibrate, SendsDaysAndCertificate) {
  FakeDaemon daemon;
  daemon.answers("gauge.calibrate", {{"name", "mic"},
                                     {"port", "hand"},
                                     {"profile", "line"},
                                     {"reads", "size"},
                                     {"measures", "outside"},
                                     {"unit", "mm"},
                                     {"state", "open"},
                                     {"setting", nullptr},
                                     {"due", "2027-03-01"},
                                     {"overdue", true}});
  const auto outcome = run_at(daemon, {"gauge", "calibrate", "mic", "--on", "2026-03-01", "--due", "2027-03-01",
                                       "--certificate", "C-1", "--by", "the room", "--uncertainty", "2 um"});
  EXPECT_EQ(lines_of(outcome.out).front(), "+ open   mic, overdue for calibration") << outcome.err;
  EXPECT_NE(outcome.out.find("calibrated, due 2027-03-01"), std::string::npos);
  EXPECT_EQ(daemon.asked("gauge.calibrate"), (Json{{"name", "mic"},
                                                   {"on", "2026-03-01"},
                                                   {"due", "2027-03-01"},
                                                   {"certificate", "C-1"},
                                                   {"by", "the room"},
                                                   {"uncertainty", "2 um"}}));
  EXPECT_EQ(run_at(daemon, {"gauge", "calibrate", "mic", "--on", "2026-03-01", "--due", "2027-03-01"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"gauge", "calibrate", "mic", "--on", "2026-03-01", "--certificate", "C"}).exit, 2);
}

TEST(GaugeDoubt, SendsTheTimeAsTyped) {
  FakeDaemon daemon;
  daemon.answers("gauge.doubt", {{"gauge", "mic"}, {"since", "2026-02-13T23:00:00.000000Z"}, {"seqs", {4, 5}}});
  EXPECT_EQ(run_at(daemon, {"gauge", "doubt", "mic", "--since", "2026-02-14", "--reason", "chipped"}).out,
            "! gauge mic is in doubt since 2026-02-13T23:00:00.000000Z; 2 readings are suspect\n");
  EXPECT_EQ(daemon.asked("gauge.doubt"), (Json{{"name", "mic"}, {"since", "2026-02-14"}, {"reason", "chipped"}}));
  EXPECT_EQ(run_at(daemon, {"gauge", "doubt", "mic", "--since", "2026-02-14", "--reason", " "}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"gauge", "doubt", "mic", "--reason", "chipped"}).exit, 2);
}

TEST(Watch, TellsWhatASettingWasMadeOnAndItsCorrection) {
  FakeDaemon daemon;
  Json setting = {{"event", "setting"}, {"seq", 41},           {"gauge", "bore"},   {"master_mm", 83.0012},
                  {"shown_mm", 0},      {"drift_mm", nullptr}, {"unit", "mm"},      {"good", nullptr},
                  {"sets_zero", true},  {"state", "kept"},     {"reason", nullptr}, {"master", "R83"},
                  {"in", nullptr}};
  daemon.tells({{"event", "hello"}, {"version", 1}, {"seq", 40}});
  daemon.tells(setting);
  setting.update({{"reason", "other ring"}, {"master", nullptr}, {"master_mm", 83.01}});
  daemon.tells(setting);
  daemon.answers("watch", Json::object());
  const auto lines = lines_of(run_at(daemon, {"watch"}).out);
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[1], "+ set        bore on 83.0012 mm (R83), shows 0.000 mm");
  EXPECT_EQ(lines[2], "* corrected  bore: setting 41 was made on 83.010 mm, other ring");
}

}  // namespace
}  // namespace tenth::cli
