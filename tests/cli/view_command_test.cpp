#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

// Readings, alerts and the status of the bench.

namespace tenth::cli {
namespace {

Json reading(int seq, const char* state, const Json& size) {
  return {{"seq", seq},     {"feature", "bore"},       {"index", 3},
          {"label", "L3"},  {"level", "top"},          {"axis", "thrust"},
          {"unit", "mm"},   {"value_mm", 83.0},        {"size_mm", size},
          {"state", state}, {"doubts", Json::array()}, {"reason", nullptr},
          {"counts", true}};
}

TEST(Readings, AreATable) {
  FakeDaemon daemon;
  auto suspect = reading(13, "suspect", 830.104);
  suspect["doubts"] = {"range", "tenfold"};
  auto old = reading(14, "kept", 83.01);
  old["counts"] = false;
  auto gone = reading(115, "void", 83.0104);
  gone["reason"] = "dirt";
  auto placeless = reading(16, "suspect", nullptr);
  for (const auto* key : {"feature", "index", "label", "level", "axis"}) placeless[key] = nullptr;
  daemon.answers("readings", {reading(12, "kept", 83.0), suspect, old, gone, placeless});
  EXPECT_EQ(run_at(daemon, {"readings"}).out,
            "    12  + kept    bore L3 top thrust              83.0000 mm\n"
            "    13  ? suspect bore L3 top thrust             830.1040 mm  range, tenfold\n"
            "    14  + kept    bore L3 top thrust              83.0100 mm  superseded\n"
            "   115  x void    bore L3 top thrust              83.0104 mm  dirt\n"
            "    16  ? suspect no place                        no size mm\n");
}

TEST(Readings, AreShownInTheirUnitOrTheOneAsked) {
  FakeDaemon daemon;
  auto inch = reading(12, "kept", 83.00254);
  inch["unit"] = "in";
  daemon.answers("readings", Json::array({inch}));
  EXPECT_NE(run_at(daemon, {"readings"}).out.find(" 3.26782"), std::string::npos);
  EXPECT_NE(run_at(daemon, {"readings", "--unit", "mm"}).out.find(" 83.00254 mm"), std::string::npos);
  EXPECT_EQ(run_at(daemon, {"readings", "--json", "--unit", "mm"}).json(), Json::array({inch}));
}

TEST(Readings, SendWhatIsAskedFor) {
  FakeDaemon daemon;
  daemon.answers("readings", Json::array());
  EXPECT_EQ(run_at(daemon, {"readings"}).exit, 0);
  EXPECT_EQ(daemon.asked("readings"), (Json{{"all", false}}));
  EXPECT_EQ(run_at(daemon, {"readings", "--engine", "K31", "--feature", "bore", "--index", "L3", "--gauge", "mic",
                            "--since", "2026-03-01T08:15:00Z", "--all"})
                .exit,
            0);
  EXPECT_EQ(daemon.asked("readings"), (Json{{"engine", "K31"},
                                            {"feature", "bore"},
                                            {"index", "L3"},
                                            {"gauge", "mic"},
                                            {"since", "2026-03-01T08:15:00.000000Z"},
                                            {"all", true}}));
  EXPECT_EQ(run_at(daemon, {"readings", "--since", "noon"}).exit, 2);
}

Json alert(const char* state) {
  return {{"id", 57},       {"event", "alert"}, {"severity", "stop"},
          {"what", "out"},  {"state", state},   {"text", "main_clearance 3 is 0.0052 mm too tight"},
          {"note", nullptr}};
}

TEST(Alerts, AreListedAndCleared) {
  FakeDaemon daemon;
  daemon.answers("alerts", {alert("open"), alert("ended")});
  EXPECT_EQ(run_at(daemon, {"alerts", "--all"}).out,
            "! stop       main_clearance 3 is 0.0052 mm too tight  #57\n"
            "- ended      main_clearance 3 is 0.0052 mm too tight  #57\n");
  EXPECT_EQ(daemon.asked("alerts"), (Json{{"all", true}}));
  auto cleared = alert("cleared");
  cleared["note"] = "shells swapped";
  daemon.answers("alerts.clear", cleared);
  EXPECT_EQ(run_at(daemon, {"alerts", "clear", "57", "--note", "shells swapped"}).out,
            "- cleared    main_clearance 3 is 0.0052 mm too tight - shells swapped  #57\n");
  EXPECT_EQ(daemon.asked("alerts.clear"), (Json{{"id", 57}, {"note", "shells swapped"}}));
}

TEST(Alerts, ThatSayMuchAreWrapped) {
  FakeDaemon daemon;
  auto much = alert("open");
  much["text"] = "bore 2: size 80.036 mm is 0.006 mm over the upper limit 80.030 mm; taper 0.014 mm is 0.004 mm over";
  daemon.answers("alerts", Json::array({much}));
  EXPECT_EQ(run_at(daemon, {"alerts"}).out,
            "! stop       bore 2: size 80.036 mm is 0.006 mm over the upper limit 80.030 mm;\n"
            "             taper 0.014 mm is 0.004 mm over  #57\n");
}

TEST(Alerts, NoneIsSaidAndANoteIsNeeded) {
  FakeDaemon daemon;
  daemon.answers("alerts", Json::array());
  EXPECT_EQ(run_at(daemon, {"alerts"}).out, "no alerts\n");
  EXPECT_EQ(run_at(daemon, {"alerts", "--json"}).out, "[]\n");
  EXPECT_EQ(run_at(daemon, {"alerts", "clear", "57"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"alerts", "clear", "57", "--note", ""}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"alerts", "clear", "x", "--note", "y"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"alerts", "clear", "0", "--note", "y"}).exit, 2);
}

Json a_status() {
  return {{"version", "0.1.0"},
          {"ledger", {{"id", "ab"}, {"seq", 128}, {"hash", "cd"}, {"waiting", 0}}},
          {"engine", "K31"},
          {"operator", nullptr},
          {"stage", "as found"},
          {"places",
           {{{"gauge", nullptr},
             {"feature", "bore"},
             {"label", "3"},
             {"level", "top"},
             {"axis", nullptr},
             {"done", 12},
             {"of", 36},
             {"where", nullptr}}}},
          {"gauges",
           {{{"name", "bg"},
             {"state", "open"},
             {"why", nullptr},
             {"age_s", 4},
             {"setting", {{"master_mm", 83}, {"age_s", 7300}}},
             {"due", nullptr},
             {"port", "hand"},
             {"last", {{"feature", "bore"}, {"label", "2"}, {"size_mm", 83.01}, {"unit", "mm"}}}},
            {{"name", "mic"},
             {"state", "gone"},
             {"why", "unplugged"},
             {"setting", nullptr},
             {"last", nullptr},
             {"port", "/dev/ttyUSB0"}}}},
          {"alerts", 2},
          {"disk", {{"free_bytes", 12'345'000'000}}}};
}

TEST(Status, IsShort) {
  FakeDaemon daemon;
  daemon.answers("status", a_status());
  EXPECT_EQ(run_at(daemon, {"status"}).out,
            "engine    K31\n"
            "operator  none; 'tenth operator use NAME'\n"
            "stage     as found\n"
            "place     > next       bore 3 top, 12 of 36 done\n"
            "gauge     + open   bg, set on 83.000 mm, 2 h ago, last 83.010 mm at bore 2,\n"
            "                   heard 4 s ago\n"
            "gauge     ! gone   mic: unplugged\n"
            "warmth    not told; sizes are judged as read\n"
            "alerts    2 open; 'tenth alerts'\n"
            "ledger    128 entries, all on disk\n"
            "disk      12345 MB free\n"
            "tenthd    0.1.0\n");
  EXPECT_EQ(run_at(daemon, {"status", "--json"}).json(), a_status());
}

TEST(Status, SaysNoPlaceOfALastReadingThatHadNone) {
  FakeDaemon daemon;
  auto status = a_status();
  status["gauges"][0]["last"]["feature"] = nullptr;
  daemon.answers("status", status);
  EXPECT_NE(run_at(daemon, {"status"}).out.find("last 83.010 mm, heard 4 s ago\n"), std::string::npos);
}

TEST(Status, SaysWhichGaugeIsOverdueAndWhatItWasSetOn) {
  FakeDaemon daemon;
  auto status = a_status();
  status["gauges"][0].update({{"due", "2026-01-31"}, {"overdue", true}});
  status["gauges"][0]["setting"]["in"] = "mic";
  daemon.answers("status", status);
  EXPECT_NE(run_at(daemon, {"status"})
                .out.find("bg, set on 83.000 mm in mic, 2 h ago, overdue for calibration\n                   since "
                          "2026-01-31, last"),
            std::string::npos);
}

TEST(Status, PutsRoundsThatAreThroughOnOneLine) {
  FakeDaemon daemon;
  auto status = a_status();
  const Json through = {{"gauge", "bg"}, {"feature", nullptr}, {"done", 36}, {"of", 36}};
  status["places"].push_back(through);
  status["places"].push_back(through);
  status["places"][2]["gauge"] = "mic";
  daemon.answers("status", status);
  EXPECT_NE(run_at(daemon, {"status"}).out.find("\nrounds    through: bg, mic\n"), std::string::npos);
}

TEST(Status, TellsHowWarmItIsAndWhatIsHeld) {
  FakeDaemon daemon;
  auto status = a_status();
  status["temperature"] = {
      {{"feature", nullptr}, {"part", "23.5"}, {"gauge", "22"}, {"within", "1"}, {"age_s", 125}},
      {{"feature", "piston"}, {"part", "21"}, {"gauge", nullptr}, {"within", nullptr}, {"age_s", 5}}};
  status["suspects"] = 2;
  daemon.answers("status", status);
  EXPECT_NE(run_at(daemon, {"status"})
                .out.find("warmth    parts at 23.5 C, gauge at 22 C, within 1 K, 2 min ago\n"
                          "warmth    piston at 21 C, 5 s ago\n"
                          "suspect   2 readings are held; 'tenth readings --all'\n"),
            std::string::npos);
}

TEST(Status, SaysWhatTheDiskDidNotTake) {
  FakeDaemon daemon;
  auto status = a_status();
  status["ledger"]["waiting"] = 3;
  daemon.answers("status", status);
  EXPECT_NE(run_at(daemon, {"status"}).out.find("128 entries, 3 waiting for the disk"), std::string::npos);
}

}  // namespace
}  // namespace tenth::cli
