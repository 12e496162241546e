#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <fstream>
#include <iostream>
#include <thread>

#include "cli/run.hpp"
#include "tests/cli/program.hpp"

namespace tenth::cli {
namespace {

Json reading() {
  return {
      {"event", "reading"},  {"seq", 41},           {"engine", "K31"},  {"feature", "bore"},       {"index", 3},
      {"label", "3"},        {"level", "top"},      {"axis", "thrust"}, {"gauge", "bg"},           {"unit", "in"},
      {"value_mm", 0.00254}, {"size_mm", 83.00254}, {"state", "kept"},  {"doubts", Json::array()}, {"verdict", "in"},
      {"to_go_mm", 0.0127}};
}

/// The lines after the hello, of a watch that ends when the daemon goes away.
std::vector<std::string> told(const std::vector<Json>& events, std::vector<std::string> more = {}) {
  FakeDaemon daemon;
  daemon.answers("watch", Json::object());
  for (const auto& event : events) daemon.tells(event);
  more.insert(more.begin(), "watch");
  const auto outcome = run_at(daemon, more);
  EXPECT_EQ(outcome.exit, 3);
  EXPECT_NE(outcome.err.find("hung up"), std::string::npos) << outcome.err;
  return lines_of(outcome.out);
}

TEST(Watch, WithJsonPrintsEachEventOnALine) {
  const Json hello = {{"event", "hello"}, {"version", 1}, {"seq", 40}};
  const auto lines = told({hello, reading()}, {"--json", "--since", "12", "--engine", "K31"});
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0], R"({"event":"hello","seq":40,"version":1})");
  EXPECT_EQ(Json::parse(lines[1]), reading());
}

TEST(Watch, SendsWhereToBegin) {
  FakeDaemon daemon;
  daemon.answers("watch", Json::object());
  run_at(daemon, {"watch", "--since", "12", "--engine", "K31"});
  EXPECT_EQ(daemon.asked("watch"), (Json{{"since", 12}, {"engine", "K31"}}));
  run_at(daemon, {"watch", "--since", "0"});
  EXPECT_EQ(daemon.asked("watch"), (Json{{"since", 0}}));
  for (const auto* wrong : {"-1", "noon", "99999999999999999999"}) {
    const auto refused = run_at(daemon, {"watch", "--since", wrong});
    EXPECT_EQ(refused.exit, 2);
    EXPECT_EQ(refused.err,
              "tenth: --since: '" + std::string(wrong) + "' is no whole number from 0 on; see 'tenth watch --help'\n");
  }
  EXPECT_EQ(run_at(daemon, {"watch", "--since", "noon"}).exit, 2);
}

TEST(Watch, TellsAPersonOneLineForEachEvent) {
  auto suspect = reading();
  suspect["state"] = "suspect";
  suspect["doubts"] = {"turn"};
  suspect["size_mm"] = nullptr;
  suspect["to_go_mm"] = nullptr;
  suspect["verdict"] = nullptr;
  const Json place = {{"event", "place"}, {"gauge", nullptr}, {"feature", "bore"}, {"label", "4"},    {"level", "top"},
                      {"axis", "thrust"}, {"done", 13},       {"of", 36},          {"where", nullptr}};
  const auto lines = told(
      {{{"event", "hello"}, {"version", 1}, {"seq", 40}},
       reading(),
       suspect,
       place,
       {{"event", "change"}, {"seq", 41}, {"state", "void"}, {"by_seq", 44}, {"reason", "dirt"}, {"doubts", {}}},
       {{"event", "answer"},
        {"seq", 45},
        {"feature", "oil_feed"},
        {"label", nullptr},
        {"answer", "no"},
        {"note", "blocked"}},
       {{"event", "note"}, {"seq", 46}, {"feature", "bore"}, {"label", "2"}, {"text", "a scratch"}},
       {{"event", "gauge"}, {"gauge", "bg"}, {"state", "gone"}, {"why", "unplugged"}},
       {{"event", "setting"},
        {"gauge", "bg"},
        {"master_mm", 83},
        {"shown_mm", 0.001},
        {"drift_mm", 0.003},
        {"good", false}},
       {{"event", "setting"},
        {"gauge", "bg"},
        {"master_mm", 50.8},
        {"shown_mm", 50.8},
        {"drift_mm", nullptr},
        {"unit", "in"},
        {"good", nullptr}},
       {{"event", "setting"},
        {"gauge", "bg"},
        {"master_mm", 83},
        {"shown_mm", 0},
        {"drift_mm", nullptr},
        {"good", nullptr}},
       {{"event", "setting"},
        {"gauge", "bg"},
        {"master_mm", 83},
        {"shown_mm", 0},
        {"drift_mm", nullptr},
        {"good", false},
        {"state", "void"},
        {"reason", "wrong ring"}},
       {{"event", "stage"}, {"seq", 46}, {"engine", "K31"}, {"stage", "as left"}, {"features", {"bore", "piston"}}},
       {{"event", "spec"}, {"seq", 50}, {"engine", "K31"}, {"title", "Six"}, {"reason", "a letter"}, {"previous", 3}},
       {{"event", "alert"}, {"id", 47}, {"severity", "stop"}, {"state", "open"}, {"text", "main_clearance 3 is out"}},
       {{"event", "alert"},
        {"id", 47},
        {"severity", "stop"},
        {"state", "open"},
        {"text", "main_clearance 3 is out"},
        {"again", 1}},
       {{"event", "alerts"}, {"count", 12}, {"stop", 0}, {"text", "12 more alerts at once"}},
       {{"event", "fault"},
        {"gauge", "bg"},
        {"why", "bad_frame"},
        {"text", "no number"},
        {"raw", "\\x07"},
        {"count", 12}},
       {{"event", "lost"}, {"seq", 48}}});
  const std::vector<std::string> expected = {
      "- watching   the ledger holds 40 entries; Ctrl-C ends this",
      "+ kept       bg: bore 3 top thrust  3.26782 in  + in  0.0005 in to go  #41",
      "? suspect    bg: bore 3 top thrust  shows 0.0001 in  turn  #41",
      "> next       bore 4 top thrust, 13 of 36 done",
      "x void       reading 41: dirt  #44",
      "! no         oil_feed: blocked  #45",
      "* note       bore 2: a scratch  #46",
      "! gone       bg: unplugged",
      "! drifted    bg on 83.000 mm, shows 0.001 mm, drift 0.003 mm",
      "+ set        bg on 2.0000 in, shows 2.0000 in",
      "+ set        bg on 83.000 mm, shows 0.000 mm",
      "! not set    bg: void, wrong ring; say 'tenth master' and press again",
      "* stage      as left: bore, piston",
      "* spec       K31 is held against a new version: a letter  #50",
      "! stop       main_clearance 3 is out  #47",
      "! stop       still: main_clearance 3 is out  #47",
      "? look       12 more alerts at once",
      "! fault      bg: bad_frame, no number [\\x07] 12 times",
      "! cut off    read too slowly; go on with --since 48"};
  EXPECT_EQ(lines, expected);
}

TEST(Watch, ShowsLengthsInTheUnitThatWasAsked) {
  EXPECT_EQ(told({reading()}, {"--unit", "mm"}).at(0),
            "+ kept       bg: bore 3 top thrust  83.00254 mm  + in  0.0127 mm to go  #41");
}

TEST(Watch, ShowsAnEventOfALaterVersionAsItCame) {
  EXPECT_EQ(told({{{"event", "live"}, {"gauge", "bg"}}}).at(0), R"(- {"event":"live","gauge":"bg"})");
}

TEST(Watch, EndsWithThreeOnWhatIsNoEvent) {
  FakeDaemon daemon;
  daemon.sends("watch", "{\"jsonrpc\":\"2.0\",\"id\":2,\"result\":{}}\nnonsense\n");
  EXPECT_EQ(run_at(daemon, {"watch"}).exit, 3);
}

/// The program in a process of its own, with its output in a pipe.
struct Child {
  pid_t id = 0;
  int out = -1;
};

Child watch_in_child(const std::string& socket) {
  std::array<int, 2> ends{};
  EXPECT_EQ(pipe(ends.data()), 0);
  const pid_t id = fork();
  if (id == 0) {
    dup2(ends[1], STDOUT_FILENO);
    close(ends[0]);
    close(ends[1]);
    World world{std::cin, std::cout, std::cerr, false, false, false, [](const std::string&) { return std::string(); }};
    _exit(run({"watch", "--json", "--socket", socket}, world));
  }
  close(ends[1]);
  return {id, ends[0]};
}

int ended(const Child& child) {
  int status = 0;
  waitpid(child.id, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 100 + WTERMSIG(status);
}

TEST(Watch, EndsWithNoughtWhenInterrupted) {
  FakeDaemon daemon;
  daemon.sends("watch", "{\"jsonrpc\":\"2.0\",\"id\":2,\"result\":{}}\n");
  daemon.tells({{"event", "hello"}, {"version", 1}, {"seq", 1}});
  daemon.stays();
  const auto child = watch_in_child(daemon.path());
  std::array<char, 256> line{};
  EXPECT_GT(read(child.out, line.data(), line.size()), 0);  // flushed, and so it waits for more
  kill(child.id, SIGINT);
  EXPECT_EQ(ended(child), 0);
  close(child.out);
}

TEST(Watch, EndsWithNoughtWhenNobodyReads) {
  FakeDaemon daemon;
  daemon.answers("watch", Json::object());
  for (int i = 0; i < 10'000; ++i) daemon.tells({{"event", "hello"}, {"version", 1}, {"seq", i}});
  daemon.stays();
  const auto child = watch_in_child(daemon.path());
  close(child.out);
  EXPECT_EQ(ended(child), 0);
}

}  // namespace
}  // namespace tenth::cli
