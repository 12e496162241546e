#include <gtest/gtest.h>

#include <fstream>

#include "tests/cli/program.hpp"
#include "tests/support/folder.hpp"

// Parts that go out, setups, tables and files: what is sent, and what a person reads.

namespace tenth::cli {
namespace {

/// A file that is gone at the end of the test.
class File {
 public:
  explicit File(const std::string& text) { std::ofstream(path(), std::ios::binary) << text; }
  std::string path() const { return folder_ / "table.csv"; }

 private:
  Folder folder_;
};

Json table(const Json& import) {
  return {{"engine", "K31"},
          {"file", "t.csv"},
          {"rows", {{{"line", 2}, {"place", "piston/1"}, {"size_mm", 82.95}, {"unit", "mm"}}}},
          {"import", import},
          {"kept", 1},
          {"suspect", 0},
          {"claimed", 0}};
}

TEST(Send, SaysWhatIsAskedForAndWhatItMeans) {
  FakeDaemon daemon;
  daemon.answers("send", {{"seq", 94},
                          {"features", {"main_journal"}},
                          {"to", "the grinder"},
                          {"ask", "grind"},
                          {"size_mm", 56.8579},
                          {"within_mm", 0.00508}});
  const auto told = run_at(daemon, {"send", "main_journal", "--to", "the grinder", "--ask", "grind", "--size", "2.2385",
                                    "--within", "2 tenth", "--unit", "in"});
  EXPECT_EQ(told.exit, 0) << told.err;
  EXPECT_EQ(lines_of(told.out).front(),
            "* sent       main_journal to the grinder: grind, 2.2385 in within 0.0002 in  #94");
  EXPECT_EQ(daemon.asked("send"), (Json{{"features", {"main_journal"}},
                                        {"to", "the grinder"},
                                        {"ask", "grind"},
                                        {"size", "2.2385"},
                                        {"within", "2 tenth"},
                                        {"unit", "in"}}));
}

TEST(Send, WantsToKnowWhoAndWhat) {
  const FakeDaemon daemon;
  EXPECT_EQ(run_at(daemon, {"send", "main_journal", "--to", "the grinder"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"send", "main_journal", "--ask", "grind", "--to", " "}).exit, 2);
  EXPECT_TRUE(daemon.calls().empty());
}

TEST(Receive, SaysToMeasureAnew) {
  FakeDaemon daemon;
  daemon.answers("receive", {{"seq", 95}, {"features", {"main_journal", "crankpin"}}});
  EXPECT_EQ(run_at(daemon, {"receive", "main_journal", "crankpin"}).out,
            "* back       main_journal, crankpin  #95\n  measure them anew: tenth stage NAME main_journal crankpin\n");
}

TEST(Setup, TakesYesAlone) {
  FakeDaemon daemon;
  daemon.answers("setup", {{"seq", 96}, {"feature", "bore"}, {"setup", "torque plates fitted"}});
  EXPECT_EQ(run_at(daemon, {"setup", "bore", "yes"}).out, "* set up     bore: torque plates fitted  #96\n");
  EXPECT_EQ(run_at(daemon, {"setup", "bore", "no"}).exit, 2);
}

TEST(Import, SendsTheWholeTableAndShowsItsRows) {
  FakeDaemon daemon;
  daemon.answers("import", table(97));
  const File file("feature,value\npiston,82.95\n");
  const auto told = run_at(daemon, {"import", file.path(), "--claimed-by", "the other shop"});
  EXPECT_EQ(told.exit, 0) << told.err;
  EXPECT_EQ(lines_of(told.out),
            (std::vector<std::string>{"    2  piston/1                                  82.950 mm",
                                      "* imported   1 rows of t.csv into K31: 1 kept, 0 suspect, 0 claimed  #97"}));
  EXPECT_EQ(daemon.asked("import"), (Json{{"file", file.path()},
                                          {"text", "feature,value\npiston,82.95\n"},
                                          {"claimed_by", "the other shop"},
                                          {"preview", false}}));
}

TEST(Import, AtATerminalTheRowsAreShownBeforeAnythingIsTaken) {
  FakeDaemon daemon;
  daemon.answers_by(
      "import", [](const Json& params) { return table(params.value("preview", false) ? Json(nullptr) : Json(97)); });
  const File file("feature,value\npiston,82.95\n");
  Seat seat;
  seat.in_is_terminal = true;
  seat.typed = "n\n";
  const auto told = run_at(daemon, {"import", file.path()}, seat);
  EXPECT_EQ(told.exit, 4);
  EXPECT_NE(told.err.find("piston/1"), std::string::npos);
  EXPECT_EQ(daemon.asked("import")["preview"], true);
  seat.typed = "y\n";
  EXPECT_EQ(run_at(daemon, {"import", file.path()}, seat).exit, 0);
  EXPECT_EQ(daemon.asked("import")["preview"], false);
}

TEST(Import, WhatIsNoTextIsNeverSent) {
  const FakeDaemon daemon;
  EXPECT_EQ(run_at(daemon, {"import", File("feature\xFF").path()}).exit, 4);
  EXPECT_EQ(run_at(daemon, {"import", File("").path()}).exit, 4);
  EXPECT_EQ(run_at(daemon, {"import", "/nowhere.csv"}).exit, 4);
  EXPECT_TRUE(daemon.calls().empty());
}

TEST(Attach, SendsTheDigestOfTheFile) {
  FakeDaemon daemon;
  daemon.answers("attach", {{"seq", 98}, {"file", "table.csv"}, {"bytes", 3}});
  const File file("abc");
  EXPECT_EQ(run_at(daemon, {"attach", file.path()}).exit, 0);
  // SHA-256 of "abc": FIPS 180-4, appendix; as in every list of test vectors.
  EXPECT_EQ(daemon.asked("attach"),
            (Json{{"file", "table.csv"},
                  {"bytes", 3},
                  {"sha256", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"}}));
}

TEST(Place, TellsTheTimeLeftAndWhatIsToBeChecked) {
  FakeDaemon daemon;
  Json place = {{"feature", "bore"}, {"index", 3}, {"label", "3"},  {"level", "top"},          {"axis", nullptr},
                {"done", 4},         {"of", 12},   {"left_s", 100}, {"recheck", Json::array()}};
  daemon.answers("next", place);
  EXPECT_EQ(run_at(daemon, {"next"}).out, "> next       bore 3 top, 4 of 12 done, about 2 min left\n");
  place.update({{"feature", nullptr},
                {"index", nullptr},
                {"label", nullptr},
                {"level", nullptr},
                {"done", 12},
                {"left_s", nullptr},
                {"recheck", {"dial", "mic"}}});
  daemon.answers("next", place);
  EXPECT_EQ(run_at(daemon, {"next"}).out,
            "> no place   the round is through, 12 of 12 done; unconfirmed until 'tenth\n             recheck dial', "
            "and mic\n");
}

TEST(Place, TellsWhatIsToBeSetFirst) {
  FakeDaemon daemon;
  daemon.answers("round",
                 {{"feature", "bore"}, {"index", 1}, {"label", "1"}, {"done", 0}, {"of", 12}, {"to_set", {"dial"}}});
  EXPECT_EQ(run_at(daemon, {"round", "bore"}).out,
            "> next       bore 1, 0 of 12 done; first set dial: 'tenth master dial SIZE'\n");
}

TEST(Enter, TellsWhatIsLeftToFile) {
  FakeDaemon daemon;
  const auto line = [&daemon](double left, const char* verdict) {
    const Json reading = {{"seq", 9},        {"feature", "gap"},   {"index", 1},
                          {"label", "1"},    {"size_mm", 0.3},     {"unit", "mm"},
                          {"state", "kept"}, {"verdict", verdict}, {"to_file_mm", left}};
    daemon.answers("enter", {{"reading", reading}});
    return lines_of(run_at(daemon, {"enter", "0.3", "--again", "0.3"}).out).front();
  };
  EXPECT_EQ(line(0.075, "in"), "+ kept       gap 1  0.300 mm  + in  0.075 mm to file  #9");
  EXPECT_EQ(line(-0.02, "in"), "+ kept       gap 1  0.300 mm  + in  0.020 mm past the aim  #9");
  EXPECT_EQ(line(-0.2, "out"),
            "+ kept       cannot be undone: gap 1  0.300 mm  ! out  0.200 mm past the aim: another ring  #9");
}

TEST(Enter, RestIsToldWithTheAnswer) {
  FakeDaemon daemon;
  daemon.answers("enter",
                 {{"answer", {{"feature", "clean"}, {"index", 1}, {"label", "1"}, {"answer", "yes"}}}, {"rest", 3}});
  EXPECT_EQ(run_at(daemon, {"enter", "yes", "--rest"}).out, "+ yes        clean 1, and 3 more\n");
  EXPECT_EQ(daemon.asked("enter"), (Json{{"value", "yes"}, {"rest", true}}));
}

}  // namespace
}  // namespace tenth::cli
