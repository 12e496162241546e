#include <gtest/gtest.h>

#include "cli/command.hpp"
#include "tests/cli/program.hpp"

namespace tenth::cli {
namespace {

std::vector<std::string> split(const std::string& name) {
  const auto blank = name.find(' ');
  if (blank == std::string::npos) return {name};
  return {name.substr(0, blank), name.substr(blank + 1)};
}

TEST(Help, OfEveryCommandHasItsExamples) {
  for (const auto& command : all_commands()) {
    auto words = split(command.name);
    words.emplace_back("--help");
    const auto outcome = run_program(words);
    EXPECT_EQ(outcome.exit, 0) << command.name;
    EXPECT_EQ(outcome.err, "");
    EXPECT_NE(outcome.out.find(command.help), std::string::npos) << command.name;
    ASSERT_FALSE(command.examples.empty()) << command.name;
    for (const auto& example : command.examples) {
      EXPECT_NE(outcome.out.find(example), std::string::npos) << command.name;
      EXPECT_TRUE(example.starts_with("tenth " + command.name)) << example;
    }
  }
}

TEST(Help, SaysByNamesHowManyWordsAThingTakes) {
  EXPECT_NE(run_program({"at", "--help"}).out.find("Usage: tenth at [OPTIONS] [PLACE...]\n"), std::string::npos);
  EXPECT_NE(run_program({"mate", "--help"}).out.find("[OPTIONS] FIT INDEX OUTSIDE_INDEX\n"), std::string::npos);
  EXPECT_NE(run_program({"what-if", "--help"}).out.find("  --shells UPPER LOWER   "), std::string::npos);
  EXPECT_NE(run_program({"void", "--help"}).out.find("  --reason TEXT (required)\n"), std::string::npos);
}

TEST(Help, FitsEightyColumnsButForExamples) {
  for (const auto& command : all_commands()) {
    auto words = split(command.name);
    words.emplace_back("--help");
    for (const auto& line : lines_of(run_program(words).out)) {
      const bool example = line.starts_with("  tenth ");
      EXPECT_TRUE(example || line.size() <= 80) << line;
    }
  }
}

TEST(Help, OfTheProgramNamesEveryCommand) {
  const auto outcome = run_program({"--help"});
  EXPECT_EQ(outcome.exit, 0);
  for (const auto& command : all_commands())
    EXPECT_NE(outcome.out.find("  " + split(command.name).front() + " "), std::string::npos) << command.name;
}

TEST(Version, IsTheProjects) {
  const auto outcome = run_program({"--version"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.out, "tenth " TENTH_VERSION "\n");
}

TEST(CommonOptions, StandBeforeAndAfterTheCommand) {
  FakeDaemon daemon;
  daemon.answers("engine.use", {{"engine", "K31"}});
  daemon.answers("master", {{"gauge", "bore"}, {"master_mm", 83}, {"within_s", 120}});
  const auto& path = daemon.path();
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"--json", "--socket", path, "engine", "use", "K31"},
                                             {"engine", "--json", "--socket", path, "use", "K31"},
                                             {"engine", "use", "K31", "--socket", path, "--json"},
                                             {"engine", "use", "--json", "--socket=" + path, "K31"}}) {
    const auto outcome = run_program(words);
    EXPECT_EQ(outcome.exit, 0) << outcome.err;
    EXPECT_EQ(outcome.out, "{\"engine\":\"K31\"}\n");
  }
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"--unit", "in", "master", "bore", "3.2677"},
                                             {"master", "--unit", "in", "bore", "3.2677"},
                                             {"master", "bore", "3.2677", "--unit", "in"}}) {
    EXPECT_EQ(run_at(daemon, words).exit, 0);
    EXPECT_EQ(daemon.asked("master"), (Json{{"gauge", "bore"}, {"size", "3.2677"}, {"unit", "in"}}));
  }
}

TEST(CommonOptions, AWordLikeACommandIsStillAWord) {
  FakeDaemon daemon;
  daemon.answers("engine.use", {{"engine", "check"}});
  EXPECT_EQ(run_at(daemon, {"engine", "use", "check"}).out,
            "engine check is in use; choose a place with 'tenth round'\n");
  daemon.answers("round", {{"event", "place"}});
  EXPECT_EQ(run_at(daemon, {"round", "status", "list"}).exit, 0);
  EXPECT_EQ(daemon.asked("round").at("features"), (Json{"status", "list"}));
}

TEST(Hello, IsTheFirstThingSaid) {
  FakeDaemon daemon;
  daemon.answers("engine.list", Json::array());
  EXPECT_EQ(run_at(daemon, {"engine", "list"}).exit, 0);
  EXPECT_EQ(daemon.calls(), (std::vector<std::string>{"hello", "engine.list"}));
  EXPECT_EQ(daemon.asked("hello").at("version"), 1);
}

}  // namespace
}  // namespace tenth::cli
