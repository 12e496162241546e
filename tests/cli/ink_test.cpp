#include "cli/render/ink.hpp"

#include <gtest/gtest.h>

#include "tests/cli/program.hpp"
#include "tests/cli/sample_report.hpp"

namespace tenth::cli {
namespace {

constexpr char kEscape = '\x1B';

Outcome check_at(const Seat& seat, std::vector<std::string> words = {"check"}) {
  FakeDaemon daemon;
  daemon.answers("check", sample_report());
  return run_at(daemon, words, seat);
}

bool coloured(const Outcome& outcome) {
  return outcome.out.find(kEscape) != std::string::npos;
}

std::string without_colour(const std::string& text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != kEscape)
      plain += text[i];
    else
      i = text.find('m', i);
  }
  return plain;
}

TEST(Ink, GoesToATerminalOnly) {
  EXPECT_FALSE(coloured(check_at({})));
  EXPECT_TRUE(coloured(check_at({.out_is_terminal = true})));
  EXPECT_TRUE(coloured(check_at({.out_is_terminal = true, .environment = {{"TERM", "xterm"}}})));
  EXPECT_FALSE(coloured(check_at({.in_is_terminal = true, .err_is_terminal = true})));
}

TEST(Ink, StaysAwayWhereItIsNotWanted) {
  EXPECT_FALSE(coloured(check_at({.out_is_terminal = true, .environment = {{"NO_COLOR", "1"}}})));
  EXPECT_FALSE(coloured(check_at({.out_is_terminal = true, .environment = {{"TERM", "dumb"}}})));
  EXPECT_FALSE(coloured(check_at({.out_is_terminal = true}, {"check", "--json"})));
}

TEST(Ink, SaysNothingThatTheWordsDoNot) {
  EXPECT_EQ(without_colour(check_at({.out_is_terminal = true}).out), check_at({}).out);
}

TEST(Ink, LeavesPlainTextAlone) {
  EXPECT_EQ(Ink(true)(Tone::plain, "as it is"), "as it is");
  EXPECT_EQ(Ink(false)(Tone::bad, "as it is"), "as it is");
  EXPECT_EQ(Ink(true)(Tone::good, "in"), "\033[32min\033[0m");
}

}  // namespace
}  // namespace tenth::cli
