#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "tests/cli/program.hpp"

// Engines, operators, gauges, places, masters: what is sent, and what a person reads.

namespace tenth::cli {
namespace {

Json bore_3() {
  return {{"event", "place"}, {"gauge", nullptr},      {"engine", "K31"},  {"feature", "bore"},         {"index", 3},
          {"label", "3"},     {"level", "top"},        {"axis", "thrust"}, {"where", "caps at torque"}, {"done", 12},
          {"of", 36},         {"ended", Json::array()}};
}

TEST(EngineAdd, SendsTheWholeSpec) {
  FakeDaemon daemon;
  daemon.answers("engine.add", {{"engine", "K31"}, {"spec", 3}, {"in_use", true}, {"features", 6}, {"places", 98}});
  const auto file = daemon.path() + ".toml";
  std::ofstream(file) << "title = \"Six\"\n";
  const auto outcome = run_at(daemon, {"engine", "add", "K31", "--spec", file});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(outcome.out, "engine K31 added: 6 features, 98 places to measure; it is in use\n");
  EXPECT_EQ(daemon.asked("engine.add"), (Json{{"name", "K31"}, {"file", file}, {"text", "title = \"Six\"\n"}}));
}

TEST(EngineAdd, SaysWhichFileCannotBeRead) {
  const FakeDaemon daemon;
  const auto outcome = run_at(daemon, {"engine", "add", "K31", "--spec", "/nowhere/k31.toml"});
  EXPECT_EQ(outcome.exit, 4);
  EXPECT_NE(outcome.err.find("/nowhere/k31.toml"), std::string::npos);
  EXPECT_EQ(run_at(daemon, {"engine", "add", "K31", "--spec", "/"}).exit, 4);
  EXPECT_EQ(run_at(daemon, {"engine", "add", "  ", "--spec", "/"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"engine", "add", "K31"}).exit, 2);
  EXPECT_TRUE(daemon.calls().empty());
}

TEST(EngineAdd, TakesNoFileWithoutAnEnd) {
  const auto outcome = run_program({"engine", "add", "K31", "--spec", "/dev/zero"});
  EXPECT_EQ(outcome.exit, 4);
  EXPECT_NE(outcome.err.find("longer than"), std::string::npos);
}

TEST(EngineRespec, SendsTheWholeSpecAndShowsTheDifference) {
  FakeDaemon daemon;
  const auto change = [](const char* of, Json name, Json key, Json from, Json to) {
    return Json{{"of", of}, {"name", name}, {"key", key}, {"from", from}, {"to", to}};
  };
  const Json changes = {change("feature", "ring_gap", "limits", "0.3 mm to 0.45 mm", "0.3 mm to 0.5 mm"),
                        change("feature", "liner", nullptr, nullptr, "outside"),
                        change("fit", "piston_clearance", "target", nullptr, "0.06 mm"),
                        change("facts", nullptr, "fuel", "pump", nullptr)};
  daemon.answers("engine.respec", {{"engine", "K31"}, {"spec", 41}, {"previous", 3}, {"changes", changes}});
  const auto file = daemon.path() + ".toml";
  std::ofstream(file) << "title = \"Six\"\n";
  const auto outcome = run_at(daemon, {"engine", "respec", "K31", "--spec", file, "--reason", "a letter"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(lines_of(outcome.out),
            (std::vector<std::string>{"engine K31 is held against its new spec  #41",
                                      "  feature ring_gap limits: 0.3 mm to 0.45 mm, now 0.3 mm to 0.5 mm",
                                      "  feature liner: new, outside", "  fit piston_clearance target: now 0.06 mm",
                                      "  facts fuel: gone, was pump"}));
  EXPECT_EQ(daemon.asked("engine.respec"),
            (Json{{"name", "K31"}, {"file", file}, {"text", "title = \"Six\"\n"}, {"reason", "a letter"}}));
  daemon.answers("engine.respec", {{"engine", "K31"}, {"spec", 42}, {"previous", 41}, {"changes", Json::array()}});
  EXPECT_EQ(run_at(daemon, {"engine", "respec", "K31", "--spec", file, "--reason", "x"}).out,
            "engine K31 is held against its new spec, which asks for the same  #42\n");
}

TEST(EngineRespec, NeedsASpecAndAReason) {
  const FakeDaemon daemon;
  EXPECT_EQ(run_at(daemon, {"engine", "respec", "K31", "--reason", "x"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"engine", "respec", "K31", "--spec", "/nowhere/k31.toml"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"engine", "respec", "K31", "--spec", "/", "--reason", " "}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"engine", "respec", "K31", "--spec", "/nowhere/k31.toml", "--reason", "x"}).exit, 4);
  EXPECT_TRUE(daemon.calls().empty());
}

TEST(EngineList, MarksTheOneInUse) {
  FakeDaemon daemon;
  daemon.answers("engine.list",
                 {{{"engine", "K31"}, {"title", "Six"}, {"spec", 3}, {"in_use", true}, {"readings", 12}},
                  {{"engine", "K32"}, {"title", "Four"}, {"spec", 9}, {"in_use", false}, {"readings", 0}}});
  const auto lines = lines_of(run_at(daemon, {"engine", "list"}).out);
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_TRUE(lines[0].starts_with("> K31"));
  EXPECT_TRUE(lines[1].starts_with("  K32"));
  EXPECT_EQ(run_at(daemon, {"engine", "list", "--json"}).json().at(1).at("title"), "Four");
  daemon.answers("engine.list", Json::array());
  EXPECT_NE(run_at(daemon, {"engine", "list"}).out.find("tenth engine add"), std::string::npos);
}

TEST(Operator, IsAddedUsedAndListed) {
  FakeDaemon daemon;
  daemon.answers("operator.add", {{"operator", "Ada"}, {"user", "ada"}, {"in_use", true}});
  daemon.answers("operator.use", {{"operator", "Ada"}, {"gauge", "mic"}});
  daemon.answers("operator.list", {{{"operator", "Ada"}, {"user", "ada"}, {"in_use", true}, {"gauges", {"mic"}}}});
  EXPECT_EQ(run_at(daemon, {"operator", "add", "Ada", "--user", "ada"}).out,
            "operator Ada (login ada) added; measures from now on\n");
  EXPECT_EQ(daemon.asked("operator.add"), (Json{{"name", "Ada"}, {"user", "ada"}}));
  EXPECT_EQ(run_at(daemon, {"operator", "use", "Ada", "--gauge", "mic"}).out,
            "operator Ada measures from now on with mic\n");
  EXPECT_EQ(daemon.asked("operator.use"), (Json{{"name", "Ada"}, {"gauge", "mic"}}));
  EXPECT_EQ(run_at(daemon, {"operator", "list"}).out, "> Ada               login ada  with mic  (measures now)\n");
}

Json a_gauge() {
  return {{"name", "bore"},
          {"port", "/dev/ttyUSB0"},
          {"profile", "line"},
          {"reads", "deviation"},
          {"measures", "inside"},
          {"unit", "in"},
          {"channel", nullptr},
          {"resolution_mm", 0.00127},
          {"drift_mm", 0.00254},
          {"uncertainty_mm", 0.00254},
          {"repeatability_mm", nullptr},
          {"expansion", nullptr},
          {"serial", "A77"},
          {"state", "open"},
          {"why", nullptr},
          {"age_s", 3},
          {"setting", {{"seq", 9}, {"master_mm", 83}, {"shown_mm", 0}, {"time", "x"}, {"age_s", 300}}},
          {"awaits", nullptr},
          {"due", nullptr}};
}

TEST(GaugeAdd, SendsWhatWasGiven) {
  FakeDaemon daemon;
  daemon.answers("gauge.add", a_gauge());
  const auto outcome = run_at(daemon, {"gauge", "add", "bore", "--port", "/dev/ttyUSB0", "--profile", "line", "--reads",
                                       "deviation", "--measures", "inside", "--unit", "in", "--drift", "0.0001",
                                       "--uncertainty", "1 tenth", "--serial", "A77"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(daemon.asked("gauge.add"), (Json{{"name", "bore"},
                                             {"port", "/dev/ttyUSB0"},
                                             {"profile", "line"},
                                             {"reads", "deviation"},
                                             {"measures", "inside"},
                                             {"gauge_unit", "in"},
                                             {"unit", "in"},
                                             {"drift", "0.0001"},
                                             {"uncertainty", "1 tenth"},
                                             {"serial", "A77"}}));
  EXPECT_TRUE(outcome.out.starts_with("+ open   bore, set on 3.26772 in, 5 min ago\n")) << outcome.out;
  const auto lines = lines_of(outcome.out);
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[1], "    /dev/ttyUSB0, line, reads deviation, measures inside, in, serial A77,");
  EXPECT_EQ(lines[2], "    drift at most 0.0001 in, uncertainty 0.0001 in");
}

TEST(GaugeAdd, ShowsAGaugeWithoutAUnitInTheOneThatItSetsIn) {
  FakeDaemon daemon;
  Json gauge = a_gauge();
  gauge["unit"] = nullptr;
  gauge["setting"]["unit"] = "in";
  daemon.answers("gauge.list", Json::array({gauge}));
  EXPECT_TRUE(run_at(daemon, {"gauge", "list"}).out.starts_with("+ open   bore, set on 3.26772 in"));
  EXPECT_TRUE(run_at(daemon, {"gauge", "list", "--unit", "mm"}).out.starts_with("+ open   bore, set on 83.000 mm"));
}

TEST(GaugeAdd, BareLengthsAreInItsOwnUnitElseTheCommonOne) {
  FakeDaemon daemon;
  daemon.answers("gauge.add", a_gauge());
  const std::vector<std::string> words = {"gauge", "add", "m", "--port", "hand", "--profile", "line", "--drift", "1"};
  const auto sent = [&](std::vector<std::string> more, const std::vector<std::string>& before = {}) {
    std::vector<std::string> all = before;
    all.insert(all.end(), words.begin(), words.end());
    all.insert(all.end(), more.begin(), more.end());
    EXPECT_EQ(run_at(daemon, all).exit, 0);
    return daemon.asked("gauge.add");
  };
  EXPECT_FALSE(sent({}).contains("unit"));
  EXPECT_FALSE(sent({}).contains("gauge_unit"));
  EXPECT_EQ(sent({}, {"--unit", "in"}).at("unit"), "in");
  EXPECT_FALSE(sent({}, {"--unit", "in"}).contains("gauge_unit"));
  EXPECT_EQ(sent({"--unit", "mm"}, {"--unit", "in"}).at("unit"), "mm");
  EXPECT_EQ(sent({"--unit", "mm"}).at("gauge_unit"), "mm");
}

TEST(GaugeAdd, RefusesWrongWordsBeforeAnythingIsSent) {
  const FakeDaemon daemon;
  const auto exit = [&](const std::string& option, const std::string& value) {
    return run_at(daemon, {"gauge", "add", "m", "--port", "hand", "--profile", "line", option, value}).exit;
  };
  EXPECT_EQ(exit("--drift", "little"), 2);
  EXPECT_EQ(exit("--resolution", "0.1 ft"), 2);
  EXPECT_EQ(exit("--reads", "sizes"), 2);
  EXPECT_EQ(exit("--measures", "outer"), 2);
  EXPECT_EQ(run_at(daemon, {"gauge", "add", "m", "--profile", "line"}).exit, 2);
  EXPECT_TRUE(daemon.calls().empty());
}

TEST(GaugeList, SaysWhatIsWrongWithOne) {
  FakeDaemon daemon;
  auto gone = a_gauge();
  gone["state"] = "gone";
  gone["why"] = "the port is used by cat (4711)";
  gone["setting"] = nullptr;
  daemon.answers("gauge.list", Json::array({gone}));
  EXPECT_TRUE(
      run_at(daemon, {"gauge", "list"}).out.starts_with("! gone   bore, not set: the port is used by cat (4711)\n"));
  daemon.answers("gauge.drop", {{"gauge", "bore"}});
  EXPECT_EQ(run_at(daemon, {"gauge", "drop", "bore"}).out, "gauge bore dropped; its readings stay\n");
}

TEST(At, SendsThePlaceAndShowsIt) {
  FakeDaemon daemon;
  daemon.answers("at", bore_3());
  const auto outcome = run_at(daemon, {"at", "bore", "3", "top", "thrust", "--gauge", "b"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(outcome.out, "> next       bore 3 top thrust, 12 of 36 done (caps at torque)\n");
  EXPECT_EQ(daemon.asked("at"), (Json{{"words", {"bore", "3", "top", "thrust"}}, {"gauge", "b"}}));
  EXPECT_EQ(run_at(daemon, {"at", "bore/3/top/thrust"}).exit, 0);
  EXPECT_EQ(daemon.asked("at"), (Json{{"words", {"bore/3/top/thrust"}}}));
}

TEST(At, KnowsCommonAndNone) {
  FakeDaemon daemon;
  Json none = {{"event", "place"}, {"gauge", "mic"}, {"feature", nullptr}, {"done", nullptr}, {"of", nullptr}};
  daemon.answers("at.none", none);
  daemon.answers("at.common", bore_3());
  EXPECT_EQ(run_at(daemon, {"at", "--none", "--gauge", "mic"}).out,
            "> no place   mic: choose one with 'tenth at' or 'tenth round'\n");
  EXPECT_EQ(daemon.asked("at.none"), (Json{{"gauge", "mic"}}));
  EXPECT_EQ(run_at(daemon, {"at", "--common", "--gauge", "mic"}).exit, 0);
  EXPECT_EQ(daemon.asked("at.common"), (Json{{"gauge", "mic"}}));
}

TEST(At, TakesOneOfItsForms) {
  const FakeDaemon daemon;
  EXPECT_EQ(run_at(daemon, {"at"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"at", "--common"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"at", "--none", "--common", "--gauge", "m"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"at", "bore", "--none"}).exit, 2);
  EXPECT_TRUE(daemon.calls().empty());
}

TEST(Round, SendsItsOptionsAndTellsWhatEnded) {
  FakeDaemon daemon;
  auto place = bore_3();
  place["ended"] = {"mic"};
  daemon.answers("round", place);
  const auto outcome =
      run_at(daemon, {"round", "bore", "piston", "--by", "index", "--from", "3", "--again", "--gauge", "b"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(daemon.asked("round"),
            (Json{{"features", {"bore", "piston"}}, {"by", "index"}, {"from", "3"}, {"again", true}, {"gauge", "b"}}));
  EXPECT_NE(outcome.out.find("mic no longer waits for its master"), std::string::npos);
  EXPECT_EQ(run_at(daemon, {"round"}).exit, 0);
  EXPECT_EQ(daemon.asked("round"), (Json{{"features", Json::array()}, {"again", false}}));
}

TEST(Round, StepsAndEnds) {
  FakeDaemon daemon;
  daemon.answers("back", bore_3());
  daemon.answers("next", {{"event", "place"}, {"gauge", nullptr}, {"feature", nullptr}, {"done", 36}, {"of", 36}});
  EXPECT_EQ(run_at(daemon, {"next"}).out, "> no place   the round is through, 36 of 36 done\n");
  EXPECT_EQ(run_at(daemon, {"back", "--gauge", "mic"}).exit, 0);
  EXPECT_EQ(daemon.asked("back"), (Json{{"gauge", "mic"}}));
}

TEST(Master, SendsTheSizeAsTyped) {
  FakeDaemon daemon;
  daemon.answers("master", {{"gauge", "bore"}, {"master_mm", 83}, {"within_s", 120}});
  daemon.answers("recheck", {{"gauge", "bore"}, {"master_mm", 83}, {"unit", "in"}, {"within_s", 120}});
  EXPECT_EQ(run_at(daemon, {"master", "bore", "83.000 mm"}).out,
            "> press bore on its master of 83.000 mm within 120 s\n");
  EXPECT_EQ(daemon.asked("master"), (Json{{"gauge", "bore"}, {"size", "83.000 mm"}}));
  EXPECT_EQ(run_at(daemon, {"master", "bore", "3.2677", "in"}).exit, 0);
  EXPECT_EQ(daemon.asked("master").at("size"), "3.2677 in");
  EXPECT_EQ(run_at(daemon, {"master", "bore", "-.5", "--unit", "mm"}).exit, 0);
  EXPECT_EQ(daemon.asked("master").at("size"), "-.5");
  EXPECT_EQ(run_at(daemon, {"recheck", "bore"}).out, "> press bore on its master of 3.26772 in within 120 s\n");
  EXPECT_EQ(run_at(daemon, {"recheck", "bore", "--unit", "mm"}).out,
            "> press bore on its master of 83.000 mm within 120 s\n");
}

TEST(Master, NeedsANameOrALength) {
  const FakeDaemon daemon;
  EXPECT_EQ(run_at(daemon, {"master", "bore", "83 rings"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"master", "bore"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"recheck"}).exit, 2);
  EXPECT_TRUE(daemon.calls().empty());
}

}  // namespace
}  // namespace tenth::cli
