#include "tests/end_to_end/terminal.hpp"

#include <gtest/gtest.h>
#include <poll.h>
#include <pty.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>

#include "tests/end_to_end/programs.hpp"

namespace acceptance {

Terminal::Terminal(const Words& words) {
  const std::string program = tenth_path();
  std::vector<char*> arguments{const_cast<char*>("tenth")};
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  pid_ = forkpty(&terminal_, nullptr, nullptr, nullptr);
  if (pid_ != 0) return;
  execv(program.c_str(), arguments.data());
  _exit(127);
}

Terminal::~Terminal() {
  if (pid_ > 0) {
    kill(pid_, SIGKILL);
    waitpid(pid_, nullptr, 0);
  }
  close(terminal_);
}

void Terminal::answer(std::string_view question, std::string_view keys) {
  const Deadline until = in(std::chrono::seconds(15));
  while (shown_.find(question) == std::string::npos) {
    ASSERT_TRUE(read_some(until)) << "it never asked '" << question << "': " << shown_;
  }
  ASSERT_EQ(write(terminal_, keys.data(), keys.size()), static_cast<ssize_t>(keys.size()));
}

int Terminal::join() {
  const Deadline until = in(std::chrono::seconds(15));
  while (read_some(until)) continue;
  if (std::chrono::steady_clock::now() >= until) {
    ADD_FAILURE() << "it still waits: " << shown_;
    kill(pid_, SIGKILL);
  }
  int status = 0;
  waitpid(pid_, &status, 0);
  pid_ = -1;
  return WIFSIGNALED(status) ? 128 + WTERMSIG(status) : WEXITSTATUS(status);
}

// False at the deadline, and when the program has let go of its terminal.
bool Terminal::read_some(Deadline until) {
  pollfd ready{terminal_, POLLIN, 0};
  const auto left = std::chrono::duration_cast<Millis>(until - std::chrono::steady_clock::now()).count();
  if (left <= 0 || poll(&ready, 1, static_cast<int>(left)) <= 0) return false;
  std::array<char, 4096> bytes{};
  const ssize_t got = read(terminal_, bytes.data(), bytes.size());
  if (got <= 0) return false;
  shown_.append(bytes.data(), static_cast<std::size_t>(got));
  return true;
}

}  // namespace acceptance
