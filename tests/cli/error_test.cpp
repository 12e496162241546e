#include <gtest/gtest.h>
#include <sys/stat.h>

#include <fstream>
#include <sstream>

#include "cli/run.hpp"
#include "tests/cli/program.hpp"

// What goes wrong ends in one line that says what to do, and in the right exit status (contract: Programs).

namespace tenth::cli {
namespace {

void expect_one_line(const Outcome& outcome, int exit, const std::string& part) {
  EXPECT_EQ(outcome.exit, exit) << outcome.err;
  EXPECT_EQ(outcome.out, "");
  EXPECT_EQ(lines_of(outcome.err).size(), 1U) << outcome.err;
  EXPECT_TRUE(outcome.err.ends_with("\n"));
  EXPECT_NE(outcome.err.find(part), std::string::npos) << outcome.err;
}

TEST(WrongWords, GetTheNearestRightOne) {
  expect_one_line(run_program({"chekc"}), 2, "did you mean 'tenth check'?");
  expect_one_line(run_program({"engine", "lst"}), 2, "did you mean 'tenth engine list'?");
  expect_one_line(run_program({"check", "--strcit"}), 2, "did you mean --strict?");
  expect_one_line(run_program({"check", "--jsno"}), 2, "did you mean --json?");
  expect_one_line(run_program({"--sokcet", "x", "check"}), 2, "did you mean --socket?");
  expect_one_line(run_program({"round", "--by", "indx"}), 2, "did you mean index?");
  expect_one_line(run_program({"check", "--unit", "inch"}), 2, "mm, in");
}

TEST(WrongWords, WithoutANearOneGetTheList) {
  expect_one_line(run_program({"frobnicate"}), 2, "commands are: engine, operator, gauge");
  expect_one_line(run_program({"engine", "frobnicate"}), 2, "commands are: add, use, respec, list");
  expect_one_line(run_program({"check", "--frobnicate"}), 2, "see 'tenth check --help'");
}

TEST(WrongWords, TooFewOrTooMany) {
  expect_one_line(run_program({}), 2, "use one of: engine");
  expect_one_line(run_program({"engine"}), 2, "use one of: add, use, respec, list");
  expect_one_line(run_program({"engine", "use"}), 2, "NAME");
  expect_one_line(run_program({"next", "please"}), 2, "'please'");
  expect_one_line(run_program({"at", "a", "b", "c", "d", "e"}), 2, "PLACE takes at most 4 words, not 5");
  expect_one_line(run_program({"enter", "--", "-4.03", "--again", "-4.03"}), 2, "write the options before --");
  expect_one_line(run_program({"void", "3", "--reason"}), 2, "--reason");
}

TEST(WrongWords, OfLaterIssuesAreUnknown) {
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"backup", "x"}, {"audit", "--seals", "x"}})
    EXPECT_EQ(run_program(words).exit, 2) << words.front();
}

TEST(WrongWords, AreShownWithoutControlCharacters) {
  const auto outcome = run_program({"a\x1B[31m\nb"});
  expect_one_line(outcome, 2, "\\x1B");
  EXPECT_EQ(outcome.err.find('\x1B'), std::string::npos);
}

TEST(WrongWords, WithJsonAreOneObject) {
  const auto outcome = run_program({"chekc", "--json"});
  expect_one_line(outcome, 2, "unknown_command");
  const auto error = outcome.error();
  EXPECT_EQ(error.size(), 3U);
  EXPECT_EQ(error.at("code"), "unknown_command");
  EXPECT_EQ(error.at("message"), "unknown command 'chekc'");
  EXPECT_EQ(error.at("do"), "did you mean 'tenth check'?");
}

TEST(Reach, NoDaemonSaysHowToStartOne) {
  expect_one_line(run_program({"status", "--socket", "/nowhere/tenthd.sock"}), 3, "start it with 'tenthd'");
  expect_one_line(run_program({"status"}, {.environment = {{"TENTH_SOCKET", "/nowhere/other.sock"}}}), 3,
                  "/nowhere/other.sock");
  expect_one_line(run_program({"status"}, {.environment = {{"XDG_RUNTIME_DIR", "/nowhere"}}}), 3,
                  "/nowhere/tenth/tenthd.sock");
  const auto json = run_program({"status", "--json", "--socket", "/nowhere/tenthd.sock"});
  expect_one_line(json, 3, "unreachable");
  EXPECT_EQ(json.error().at("code"), "unreachable");
}

TEST(Reach, TheOptionBeatsTheVariable) {
  const FakeDaemon daemon;
  EXPECT_EQ(run_at(daemon, {"next", "--socket", "/nowhere/x.sock"}).exit, 3);
}

TEST(Reach, AStaleSocketIsNoDaemon) {
  std::string path;
  {
    const FakeDaemon daemon;
    path = daemon.path();
  }
  mkdir(path.substr(0, path.rfind('/')).c_str(), 0700);
  std::ofstream(path) << "no socket";
  expect_one_line(run_program({"status", "--socket", path}), 3, path);
  remove(path.c_str());
  rmdir(path.substr(0, path.rfind('/')).c_str());
}

TEST(Reach, APathThatIsTooLongIsAWrongWord) {
  expect_one_line(run_program({"status", "--socket", "/" + std::string(200, 'x')}), 2, "too long");
}

TEST(Reach, ADaemonOfAnotherVersionIsNamed) {
  FakeDaemon daemon;
  daemon.answers("hello", {{"version", 2}, {"server", "tenthd 9"}});
  expect_one_line(run_at(daemon, {"status"}), 3, "different versions");
  daemon.refuses("hello", {Exit::refused, "version", "version 1 is spoken no more", "update"});
  expect_one_line(run_at(daemon, {"status"}), 3, "version 1 is spoken no more");
}

TEST(Reach, ADaemonThatSendsUsAwaySaysWhy) {
  FakeDaemon daemon;
  daemon.refuses("hello", {Exit::refused, "clients", "64 clients are connected already", "close one"});
  expect_one_line(run_at(daemon, {"status"}), 4, "64 clients are connected already");
}

TEST(Reach, ADaemonThatHangsUpIsGone) {
  FakeDaemon daemon;
  daemon.sends("next", "");
  expect_one_line(run_at(daemon, {"next"}), 3, "hung up");
  daemon.sends("next", "{\"jsonrpc\":\"2.0\",\"id\":2,\"res");
  daemon.sends("hello", "");
  expect_one_line(run_at(daemon, {"next"}), 3, "hung up");
}

TEST(Reach, AnAnswerThatMakesNoSenseIsNone) {
  FakeDaemon daemon;
  for (const auto* bytes : {"nonsense\n", "[]\n", "\n", "{\"jsonrpc\":\"2.0\",\"id\":99,\"result\":{}}\n",
                            "{\"jsonrpc\":\"2.0\",\"id\":2}\n", "\xFF\xFE\n"}) {
    daemon.sends("next", bytes);
    expect_one_line(run_at(daemon, {"next"}), 3, "makes no sense");
  }
}

TEST(Reach, AnAnswerOfAWrongShapeIsNone) {
  FakeDaemon daemon;
  daemon.answers("check", {{"engine", "K31"}});
  expect_one_line(run_at(daemon, {"check"}), 3, "not what was asked for");
  daemon.answers("status", Json::array({1, 2}));
  EXPECT_EQ(run_at(daemon, {"status"}).exit, 3);
  daemon.answers("readings", Json::array({{{"seq", 1}, {"size_mm", "much"}}}));
  EXPECT_EQ(run_at(daemon, {"readings"}).exit, 3);
}

TEST(Refusal, KeepsItsExitStatusAndWords) {
  FakeDaemon daemon;
  daemon.refuses("engine.use", {Exit::refused, "unknown_engine", "there is no engine 'K3'", "did you mean 'K31'?"});
  const auto refused = run_at(daemon, {"engine", "use", "K3"});
  expect_one_line(refused, 4, "");
  EXPECT_EQ(refused.err, "tenth: there is no engine 'K3'; did you mean 'K31'?\n");
  daemon.refuses("enter", {Exit::words, "no_unit", "3 has no unit", "add --unit"});
  expect_one_line(run_at(daemon, {"enter", "3", "--again", "3"}), 2, "add --unit");
  const auto json = run_at(daemon, {"--json", "engine", "use", "K3"});
  EXPECT_EQ(json.exit, 4);
  EXPECT_EQ(json.error(),
            (Json{{"code", "unknown_engine"}, {"message", "there is no engine 'K3'"}, {"do", "did you mean 'K31'?"}}));
}

TEST(Refusal, IsShownOnOneLineWhateverItHolds) {
  FakeDaemon daemon;
  daemon.refuses("next", {Exit::refused, "x", "two\nlines\x07", "and\tmore"});
  expect_one_line(run_at(daemon, {"next"}), 4, "two\\x0Alines\\x07; and\\x09more");
}

TEST(Output, ThatCannotBeWrittenIsNoSuccess) {
  FakeDaemon daemon;
  daemon.answers("alerts", Json::array());
  std::istringstream in;
  std::ofstream full("/dev/full");
  std::ostringstream err;
  World world{in, full, err, false, false, false, [](const std::string&) { return std::string(); }};
  EXPECT_EQ(run({"alerts", "--socket", daemon.path()}, world), 4);
  EXPECT_NE(err.str().find("could not be written"), std::string::npos);
}

TEST(Request, ThatIsTooLongOrNoTextIsNotSent) {
  const FakeDaemon daemon;
  expect_one_line(run_at(daemon, {"void", "1", "--reason", std::string(1 << 20, 'x')}), 4, "1 MiB");
  expect_one_line(run_at(daemon, {"void", "1", "--reason", "\xFF"}), 2, "UTF-8");
  EXPECT_EQ(daemon.asked("void"), nullptr);
}

}  // namespace
}  // namespace tenth::cli
