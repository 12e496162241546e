#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

// Parts, mates and decisions: what is sent, and what a person reads.

namespace tenth::cli {
namespace {

Json installed() {
  return {{"seq", 91},
          {"engine", "K31"},
          {"feature", "main_bearing"},
          {"index", 3},
          {"label", "3"},
          {"half", "lower"},
          {"part", "std-coated-lower"},
          {"stage", "as found"},
          {"places", {"main_bearing/3/vertical", "main_bearing/3/oblique"}}};
}

Json mated() {
  return {{"seq", 92},
          {"engine", "K31"},
          {"fit", "piston_clearance"},
          {"inside", "bore"},
          {"index", 1},
          {"label", "L1"},
          {"outside", "piston"},
          {"outside_index", 2},
          {"outside_label", "2"},
          {"lost", {{{"index", 2}, {"label", "R1"}}}},
          {"freed", {{"index", 1}, {"label", "1"}}}};
}

Json decided() {
  return {{"seq", 93}, {"engine", "K31"}, {"text", "softer shells"}, {"remedy", "r1"}, {"reason", "free, and in"}};
}

TEST(Install, SendsThePartAndSaysWhatIsUnread) {
  FakeDaemon daemon;
  daemon.answers("install", installed());
  const auto outcome = run_at(daemon, {"install", "main_bearing", "3", "std-coated-lower", "--half", "lower"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(outcome.out,
            "* installed  main_bearing 3 lower: std-coated-lower  #91\n"
            "  to measure again: main_bearing/3/vertical, main_bearing/3/oblique\n");
  EXPECT_EQ(daemon.asked("install"),
            (Json{{"feature", "main_bearing"}, {"index", "3"}, {"part", "std-coated-lower"}, {"half", "lower"}}));
  EXPECT_EQ(run_at(daemon, {"install", "main_bearing", "3", "x", "--json"}).json(), installed());
}

TEST(Install, LeavesOutTheIndexOfAFeatureWithOne) {
  FakeDaemon daemon;
  daemon.answers("install", installed());
  EXPECT_EQ(run_at(daemon, {"install", "oil_pump", "pump from the shelf"}).exit, 0);
  EXPECT_EQ(daemon.asked("install"), (Json{{"feature", "oil_pump"}, {"part", "pump from the shelf"}}));
}

TEST(Install, TakesTwoOrThreeWordsAndAHalf) {
  const FakeDaemon daemon;
  EXPECT_EQ(run_at(daemon, {"install", "piston"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"install", "piston", "1", "a", "b"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"install", "main_bearing", "1", "a", "--half", "left"}).exit, 2);
  EXPECT_TRUE(daemon.calls().empty());
}

TEST(Mate, SaysWhoLostItsMate) {
  FakeDaemon daemon;
  daemon.answers("mate", mated());
  const auto outcome = run_at(daemon, {"mate", "piston_clearance", "L1", "2"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(outcome.out,
            "* mated      piston_clearance: bore L1 with piston 2; bore R1 has no mate now; piston 1 is free  #92\n");
  EXPECT_EQ(daemon.asked("mate"), (Json{{"fit", "piston_clearance"}, {"index", "L1"}, {"outside_index", "2"}}));
  Json quiet = mated();
  quiet["lost"] = Json::array();
  quiet["freed"] = nullptr;
  daemon.answers("mate", quiet);
  EXPECT_EQ(run_at(daemon, {"mate", "piston_clearance", "L1", "2"}).out,
            "* mated      piston_clearance: bore L1 with piston 2  #92\n");
  EXPECT_EQ(run_at(daemon, {"mate", "piston_clearance", "L1"}).exit, 2);
}

TEST(Decide, SendsWhatWasChosenAndWhy) {
  FakeDaemon daemon;
  daemon.answers("decide", decided());
  const auto outcome = run_at(daemon, {"decide", "softer shells", "--remedy", "r1", "--reason", "free, and in"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(outcome.out, "* decided    softer shells (remedy r1): free, and in  #93\n");
  EXPECT_EQ(daemon.asked("decide"), (Json{{"text", "softer shells"}, {"remedy", "r1"}, {"reason", "free, and in"}}));
  EXPECT_EQ(run_at(daemon, {"decide", "leave it", "--reason", "x"}).exit, 0);
  EXPECT_EQ(daemon.asked("decide"), (Json{{"text", "leave it"}, {"reason", "x"}}));
}

TEST(Decide, NeedsWordsAndAReason) {
  const FakeDaemon daemon;
  EXPECT_EQ(run_at(daemon, {"decide", "softer shells"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"decide", " ", "--reason", "x"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"decide", "softer shells", "--reason", " "}).exit, 2);
  EXPECT_TRUE(daemon.calls().empty());
}

TEST(Parts, AreToldToAWatcherAsToWhoDidIt) {
  FakeDaemon daemon;
  daemon.answers("watch", Json::object());
  const auto event = [](const char* name, Json keys) {
    keys["event"] = name;
    return keys;
  };
  daemon.tells(event("install", installed()));
  daemon.tells(event("mate", mated()));
  daemon.tells(event("decide", decided()));
  EXPECT_EQ(lines_of(run_at(daemon, {"watch"}).out),
            (std::vector<std::string>{
                "* installed  main_bearing 3 lower: std-coated-lower  #91",
                "* mated      piston_clearance: bore L1 with piston 2; bore R1 has no mate now; piston 1 is free  #92",
                "* decided    softer shells (remedy r1): free, and in  #93"}));
}

}  // namespace
}  // namespace tenth::cli
