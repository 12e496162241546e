#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

// What is entered, begun anew or corrected by hand.

namespace tenth::cli {
namespace {

Json place() {
  return {{"event", "place"}, {"gauge", nullptr}, {"feature", "bore"}, {"index", 4},
          {"label", "4"},     {"level", nullptr}, {"axis", nullptr}};
}

Json entered(const char* state, const Json& doubts) {
  return {{"reading",
           {{"event", "reading"},
            {"seq", 41},
            {"feature", "bore"},
            {"index", 3},
            {"label", "3"},
            {"level", "top"},
            {"axis", "thrust"},
            {"gauge", "mic"},
            {"unit", "mm"},
            {"value_mm", 83.0104},
            {"size_mm", 83.0104},
            {"state", state},
            {"doubts", doubts},
            {"verdict", "incomplete"},
            {"to_go_mm", nullptr}}},
          {"place", place()}};
}

TEST(Enter, SendsBothValuesAsTyped) {
  FakeDaemon daemon;
  daemon.answers("enter", entered("kept", Json::array()));
  const auto outcome = run_at(
      daemon, {"enter", "0.0270", "--again", "0.027", "--unit", "in", "--gauge", "feeler", "--note", "second ring"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(
      daemon.asked("enter"),
      (Json{{"value", "0.0270"}, {"again", "0.027"}, {"unit", "in"}, {"gauge", "feeler"}, {"note", "second ring"}}));
}

TEST(Enter, TakesNegativeValues) {
  FakeDaemon daemon;
  daemon.answers("enter", entered("kept", Json::array()));
  for (const std::vector<std::string>& pair : std::vector<std::vector<std::string>>{
           {"-0.0012", "-0.0012"}, {"-1 tenth", "-.0001 in"}, {"-.5", "-,5"}, {"-2e-3", "-0.002"}}) {
    const auto outcome = run_at(daemon, {"enter", pair[0], "--again", pair[1]});
    EXPECT_EQ(outcome.exit, 0) << outcome.err;
    EXPECT_EQ(daemon.asked("enter"), (Json{{"value", pair[0]}, {"again", pair[1]}}));
  }
  EXPECT_EQ(run_at(daemon, {"enter", "--again", "-3", "-3", "--json"}).exit, 0);
  EXPECT_EQ(run_at(daemon, {"enter", "-3", "--again=-3", "--gauge", "g"}).exit, 0);
  EXPECT_EQ(daemon.asked("enter"), (Json{{"value", "-3"}, {"again", "-3"}, {"gauge", "g"}}));
}

TEST(Note, IsSentAndShownWithItsPlace) {
  FakeDaemon daemon;
  Json note = {{"seq", 12}, {"engine", "K31"}, {"gauge", nullptr}, {"feature", nullptr}, {"text", "block at 24 C"}};
  daemon.answers("note", note);
  EXPECT_EQ(run_at(daemon, {"note", "block at 24 C"}).out, "* note       block at 24 C  #12\n");
  EXPECT_EQ(daemon.asked("note"), (Json{{"text", "block at 24 C"}}));
  note.update({{"feature", "bore"},
               {"label", "L2"},
               {"level", "top"},
               {"axis", nullptr},
               {"gauge", "mic"},
               {"text", "a\nscratch"}});
  daemon.answers("note", note);
  EXPECT_EQ(run_at(daemon, {"note", "a\nscratch", "--gauge", "mic"}).out,
            "* note       mic: bore L2 top: a\\x0Ascratch  #12\n");
  EXPECT_EQ(daemon.asked("note"), (Json{{"text", "a\nscratch"}, {"gauge", "mic"}}));
  EXPECT_EQ(run_at(daemon, {"note", "  "}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"note"}).exit, 2);
}

TEST(Enter, ShowsTheReadingAndTheNextPlace) {
  FakeDaemon daemon;
  daemon.answers("enter", entered("kept", Json::array()));
  const auto lines = lines_of(run_at(daemon, {"enter", "83.0104", "--again", "83.0104"}).out);
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0], "+ kept       mic: bore 3 top thrust  83.0104 mm  . incomplete  #41");
  EXPECT_EQ(lines[1], "> next       bore 4");
}

TEST(Enter, SaysLoudlyWhatIsSuspect) {
  FakeDaemon daemon;
  daemon.answers("enter", entered("suspect", {"range", "tenfold"}));
  const auto outcome = run_at(daemon, {"enter", "83.0104", "--again", "83.0104"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(outcome.out.starts_with("? suspect    mic: bore 3 top thrust"));
  EXPECT_NE(outcome.out.find("range, tenfold"), std::string::npos);
  EXPECT_NE(outcome.out.find("tenth undo"), std::string::npos);
}

TEST(Enter, SaysWhatCanBeDoneAboutADoubt) {
  FakeDaemon daemon;
  const std::vector<std::pair<std::string, std::string>> ways = {{"range", "tenth keep 41 --reason"},
                                                                 {"no_place", "tenth move 41 PLACE"},
                                                                 {"wrong_kind", "tenth move 41 PLACE"},
                                                                 {"no_setting", "tenth master"},
                                                                 {"unit", "in the gauge's unit"}};
  for (const auto& [doubt, way] : ways) {
    daemon.answers("enter", entered("suspect", Json::array({doubt})));
    const auto out = run_at(daemon, {"enter", "83", "--again", "83"}).out;
    EXPECT_NE(out.find(way), std::string::npos) << out;
  }
}

TEST(Enter, AsksATerminalForTheSecondWithoutShowingTheFirst) {
  FakeDaemon daemon;
  daemon.answers("enter", entered("kept", Json::array()));
  const auto outcome = run_at(daemon, {"enter", "83.0104"}, {.typed = "83.0105\n", .in_is_terminal = true});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(daemon.asked("enter"), (Json{{"value", "83.0104"}, {"again", "83.0105"}}));
  EXPECT_EQ(outcome.err.find("83"), std::string::npos);
  EXPECT_EQ(run_at(daemon, {"enter", "83.0104"}, {.typed = "what?\n", .in_is_terminal = true}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"enter", "83.0104"}, {.typed = "", .in_is_terminal = true}).exit, 2);
}

TEST(Enter, NeedsTheSecondWithoutATerminal) {
  const FakeDaemon daemon;
  const auto outcome = run_at(daemon, {"enter", "83.0104"}, {.typed = "83.0104\n"});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_NE(outcome.err.find("--again"), std::string::npos);
  EXPECT_EQ(run_at(daemon, {"enter", "much", "--again", "much"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"enter", "83", "--again", "much"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"enter"}).exit, 2);
  EXPECT_TRUE(daemon.calls().empty());
}

TEST(Enter, AnswersAChecksQuestionOnce) {
  FakeDaemon daemon;
  daemon.answers("enter", {{"answer",
                            {{"feature", "oil_feed_clear"},
                             {"index", 1},
                             {"label", nullptr},
                             {"answer", "later"},
                             {"note", "plug missing"}}},
                           {"place", nullptr}});
  for (const auto* word : {"yes", "no", "later", "n/a"}) {
    const auto outcome = run_at(daemon, {"enter", word, "--note", "plug missing"});
    EXPECT_EQ(outcome.exit, 0) << outcome.err;
    EXPECT_EQ(daemon.asked("enter"), (Json{{"value", word}, {"note", "plug missing"}}));
    EXPECT_EQ(outcome.out, ". later      oil_feed_clear 1: plug missing\n");
  }
}

TEST(Enter, SendsTheSecondAnswerTooWhereOneIsGiven) {
  FakeDaemon daemon;
  daemon.answers("enter", {{"answer", nullptr}, {"place", nullptr}});
  EXPECT_EQ(run_at(daemon, {"enter", "yes", "--again", "no"}).exit, 0);
  EXPECT_EQ(daemon.asked("enter"), (Json{{"value", "yes"}, {"again", "no"}}));
}

TEST(Stage, WithFeaturesIsBegunAtOnce) {
  FakeDaemon daemon;
  daemon.answers("stage", {{"stage", "after grinding"}, {"features", {"main_journal", "crankpin"}}});
  const auto outcome =
      run_at(daemon, {"stage", "after grinding", "main_journal", "crankpin", "--carry"}, {.in_is_terminal = true});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(outcome.err, "");
  EXPECT_EQ(outcome.out, "stage 'after grinding' begins for main_journal, crankpin\n");
  EXPECT_EQ(daemon.asked("stage"),
            (Json{{"name", "after grinding"}, {"features", {"main_journal", "crankpin"}}, {"carry", true}}));
}

TEST(Stage, ForAllIsAskedFirstOnATerminalOnly) {
  FakeDaemon daemon;
  daemon.answers("stage", {{"stage", "as left"}, {"features", {"bore"}}});
  EXPECT_EQ(run_at(daemon, {"stage", "as left"}).exit, 0);
  EXPECT_EQ(daemon.asked("stage"), (Json{{"name", "as left"}, {"features", Json::array()}, {"carry", false}}));
  EXPECT_EQ(run_at(daemon, {"stage", "as left"}, {.typed = "y\n", .in_is_terminal = true}).exit, 0);
}

TEST(Stage, ForAllIsNotBegunWithoutAYes) {
  for (const auto* typed : {"", "\n", "n\n", "what\n"}) {
    const FakeDaemon daemon;
    const auto outcome = run_at(daemon, {"stage", "as left"}, {.typed = typed, .in_is_terminal = true});
    EXPECT_EQ(outcome.exit, 4);
    EXPECT_NE(outcome.err.find("[y/N]"), std::string::npos);
    EXPECT_TRUE(daemon.calls().empty());
  }
}

TEST(Corrections, SendTheRunAndTheReason) {
  FakeDaemon daemon;
  daemon.answers("void", {{"seqs", {41}}, {"place", nullptr}});
  daemon.answers("keep", {{"seqs", {41, 42, 43}}, {"place", place()}});
  daemon.answers("move", {{"seqs", {41, 42}}, {"places", {"bore/4/top/thrust", "bore/4/top/pin"}}});
  EXPECT_EQ(run_at(daemon, {"void", "41", "--reason", "dirt"}).out, "x void       41\n");
  EXPECT_EQ(daemon.asked("void"), (Json{{"first", 41}, {"reason", "dirt"}}));
  EXPECT_EQ(run_at(daemon, {"keep", "41..43", "--reason", "right"}).out,
            "+ kept       41, 42, 43\n> next       bore 4\n");
  EXPECT_EQ(daemon.asked("keep"), (Json{{"first", 41}, {"last", 43}, {"reason", "right"}}));
  EXPECT_EQ(run_at(daemon, {"move", "41..42", "bore", "4", "top", "thrust", "--reason", "wrong bore"}).out,
            "> moved      41, 42 to bore/4/top/thrust, bore/4/top/pin\n");
  EXPECT_EQ(daemon.asked("move"),
            (Json{{"first", 41}, {"last", 42}, {"words", {"bore", "4", "top", "thrust"}}, {"reason", "wrong bore"}}));
}

TEST(Corrections, UndoTakesAGaugeOrTheBench) {
  FakeDaemon daemon;
  daemon.answers("undo", {{"seqs", {44}}, {"place", place()}});
  EXPECT_EQ(run_at(daemon, {"undo"}).out, "x void       44\n> next       bore 4\n");
  EXPECT_EQ(daemon.asked("undo"), Json::object());
  EXPECT_EQ(run_at(daemon, {"undo", "--gauge", "mic", "--json"}).json().at("seqs"), (Json{44}));
  EXPECT_EQ(daemon.asked("undo"), (Json{{"gauge", "mic"}}));
}

TEST(Corrections, WithoutAReasonOrANumberAreWrongWords) {
  const FakeDaemon daemon;
  EXPECT_EQ(run_at(daemon, {"void", "41"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"keep", "41", "--reason", " "}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"move", "41", "bore", "4"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"move", "41", "--reason", "x"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"void", "first", "--reason", "x"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"void", "4..2", "--reason", "x"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"void", "-3", "--reason", "x"}).exit, 2);
  EXPECT_TRUE(daemon.calls().empty());
}

}  // namespace
}  // namespace tenth::cli
