#include <gtest/gtest.h>
#include <pty.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdlib>

#include "tests/cli/fake_daemon.hpp"
#include "tests/cli/sample_report.hpp"

// The program itself on a real terminal: what is only seen there.

namespace tenth::cli {
namespace {

struct Told {
  int exit = -1;
  std::string text;
};

/// Runs the program on a pseudo-terminal with these variables beside the socket's, and types `typed`.
Told on_terminal(const FakeDaemon& daemon, std::vector<std::string> words,
                 const std::vector<std::pair<std::string, std::string>>& variables, const std::string& typed = "") {
  int master = -1;
  const pid_t id = forkpty(&master, nullptr, nullptr, nullptr);
  if (id == 0) {
    setenv("TENTH_SOCKET", daemon.path().c_str(), 1);
    unsetenv("NO_COLOR");
    setenv("TERM", "xterm", 1);
    for (const auto& [name, value] : variables) setenv(name.c_str(), value.c_str(), 1);
    words.insert(words.begin(), "tenth");
    std::vector<char*> list;
    for (auto& word : words) list.push_back(word.data());
    list.push_back(nullptr);
    execv(TENTH_BINARY_DIR "/bin/tenth", list.data());
    _exit(99);
  }
  EXPECT_EQ(write(master, typed.data(), typed.size()), static_cast<ssize_t>(typed.size()));
  Told told;
  std::array<char, 4096> block{};
  for (auto count = read(master, block.data(), block.size()); count > 0;
       count = read(master, block.data(), block.size()))
    told.text.append(block.data(), static_cast<std::size_t>(count));  // ends with EIO once the program is gone
  int status = 0;
  waitpid(id, &status, 0);
  close(master);
  told.exit = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return told;
}

bool coloured(const Told& told) {
  return told.text.find('\x1B') != std::string::npos;
}

TEST(Terminal, GetsColourUnlessItIsNotWanted) {
  FakeDaemon daemon;
  daemon.answers("check", sample_report());
  const auto plain = on_terminal(daemon, {"check"}, {});
  EXPECT_EQ(plain.exit, 1);
  EXPECT_TRUE(coloured(plain));
  EXPECT_FALSE(coloured(on_terminal(daemon, {"check"}, {{"NO_COLOR", "1"}})));
  EXPECT_FALSE(coloured(on_terminal(daemon, {"check"}, {{"TERM", "dumb"}})));
  EXPECT_FALSE(coloured(on_terminal(daemon, {"check", "--json"}, {})));
}

TEST(Terminal, IsAskedForTheSecondValue) {
  FakeDaemon daemon;
  daemon.answers("enter", {{"answer", {{"feature", "bore"}, {"answer", "yes"}}}});
  const auto told = on_terminal(daemon, {"enter", "-0.0012"}, {}, "-0.0013\n");
  EXPECT_EQ(told.exit, 0) << told.text;
  EXPECT_EQ(daemon.asked("enter"), (Json{{"value", "-0.0012"}, {"again", "-0.0013"}}));
}

TEST(Terminal, IsAskedBeforeAStageOfAll) {
  FakeDaemon daemon;
  daemon.answers("stage", {{"stage", "as left"}, {"features", {"bore"}}});
  EXPECT_EQ(on_terminal(daemon, {"stage", "as left"}, {}, "n\n").exit, 4);
  EXPECT_EQ(daemon.asked("stage"), nullptr);
  EXPECT_EQ(on_terminal(daemon, {"stage", "as left"}, {}, "y\n").exit, 0);
}

}  // namespace
}  // namespace tenth::cli
