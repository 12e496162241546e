#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/cli/program.hpp"
#include "tests/cli/sample_report.hpp"

// Whatever is typed and whatever the socket says: a stated exit status, at most one line of error, no crash.

namespace tenth::cli {
namespace {

void expect_orderly(const Outcome& outcome) {
  RC_ASSERT(outcome.exit >= 0);
  RC_ASSERT(outcome.exit <= 4);
  const bool failed = outcome.exit >= 2;
  RC_ASSERT(lines_of(outcome.err).size() == (failed ? 1U : 0U));
}

rc::Gen<std::string> word() {
  std::vector<std::string> known = {"engine",   "add",   "use",     "list",   "gauge",  "at",      "round",
                                    "enter",    "void",  "move",    "--json", "--unit", "in",      "--all",
                                    "--reason", "--",    "-3",      "-x",     "12..15", "--since", "++",
                                    "",         "[a,b]", "--again", "-.5",    "=",      "--="};
  return rc::gen::oneOf(rc::gen::elementOf(known), rc::gen::arbitrary<std::string>());
}

RC_GTEST_PROP(Program, TakesAnyWords, ()) {
  auto words = *rc::gen::container<std::vector<std::string>>(word());
  words.insert(words.begin(), {"--socket", "/nowhere/tenthd.sock"});
  expect_orderly(run_program(words));
}

/// One value somewhere in the document replaced by another.
void spoil(Json& document) {
  if (document.is_structured() && !document.empty() && *rc::gen::inRange(0, 5) > 0) {
    auto chosen = document.begin();
    std::advance(chosen, *rc::gen::inRange<int>(0, static_cast<int>(document.size())));
    spoil(*chosen);
    return;
  }
  const std::vector<Json> others = {nullptr,
                                    true,
                                    -1,
                                    1e300,
                                    0.1234567890123,
                                    "text",
                                    "\x1B[2J",
                                    Json::array(),
                                    Json::object(),
                                    Json::array({nullptr, 3, "x"}),
                                    9007199254740991};
  document = *rc::gen::elementOf(others);
}

/// Calls with a right answer to each, to be spoilt.
struct Call {
  std::vector<std::string> words;
  std::string method;
  Json answer;
};

const std::vector<Call>& calls() {
  static const Json reading = {{"seq", 1},        {"feature", "bore"},   {"label", "1"},
                               {"unit", "in"},    {"size_mm", 83.01},    {"value_mm", 83.01},
                               {"state", "kept"}, {"doubts", {"range"}}, {"reason", nullptr}};
  static const Json place = {{"feature", "bore"}, {"done", 1}, {"of", 2}, {"ended", {"mic"}}};
  static const Json gauge = {{"name", "bg"},       {"state", "open"}, {"unit", "mm"},
                             {"drift_mm", 0.0025}, {"reads", "size"}, {"setting", {{"master_mm", 83}, {"age_s", 9}}},
                             {"last", reading}};
  static const Json status = {{"places", Json::array({place})},
                              {"gauges", Json::array({gauge})},
                              {"alerts", 1},
                              {"ledger", {{"seq", 4}}},
                              {"disk", {{"free_bytes", 1}}}};
  static const std::vector<Call> all = {
      {{"check"}, "check", sample_report()},
      {{"check", "--ready", "--unit", "in"}, "check", sample_report()},
      {{"readings"}, "readings", Json::array({reading})},
      {{"status"}, "status", status},
      {{"gauge", "list"}, "gauge.list", Json::array({gauge})},
      {{"round"}, "round", place},
      {{"enter", "1", "--again", "1"}, "enter", {{"reading", reading}, {"place", place}}},
      {{"move", "1", "bore", "--reason", "x"}, "move", {{"seqs", {1}}, {"places", {"bore/1"}}}},
      {{"undo"}, "undo", {{"seqs", {1}}, {"place", place}}},
      {{"alerts"}, "alerts", {{{"id", 1}, {"text", "out"}, {"state", "open"}, {"severity", "stop"}}}},
      {{"export", "--format", "csv"}, "entries", {{"head", {{"seq", 0}, {"hash", ""}}}, {"entries", Json::array()}}},
      {{"engine", "list"}, "engine.list", {{{"engine", "K31"}, {"title", "Six"}, {"in_use", true}, {"readings", 3}}}}};
  return all;
}

RC_GTEST_PROP(Program, TakesAnswersOfAnyShape, ()) {
  const auto call = *rc::gen::elementOf(calls());
  static FakeDaemon daemon;
  auto answer = call.answer;
  spoil(answer);
  daemon.answers(call.method, answer);
  expect_orderly(run_at(daemon, call.words));
}

RC_GTEST_PROP(Program, TakesAnswersOfAnyBytes, (const std::string& bytes)) {
  static FakeDaemon daemon;
  daemon.sends("status", bytes + "\n");
  expect_orderly(run_at(daemon, {"status"}));
}

}  // namespace
}  // namespace tenth::cli
