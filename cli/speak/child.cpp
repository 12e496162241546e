#include "cli/speak/child.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <utility>

namespace tenth::cli {

std::optional<Child> Child::start(const std::vector<std::string>& words, int input, Clock::duration limit) {
  posix_spawn_file_actions_t files;
  posix_spawn_file_actions_init(&files);
  posix_spawn_file_actions_adddup2(&files, input, STDIN_FILENO);
  posix_spawn_file_actions_addopen(&files, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&files, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addclosefrom_np(&files, STDERR_FILENO + 1);
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  posix_spawnattr_setpgroup(&attributes, 0);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETPGROUP);
  std::vector<char*> argv;
  for (const std::string& word : words) argv.push_back(const_cast<char*>(word.c_str()));
  argv.push_back(nullptr);
  pid_t pid = 0;
  const int error = posix_spawnp(&pid, argv[0], &files, &attributes, argv.data(), environ);
  posix_spawnattr_destroy(&attributes);
  posix_spawn_file_actions_destroy(&files);
  if (error != 0) return std::nullopt;
  return Child(pid, Clock::now() + limit);
}

Child::Child(Child&& other) noexcept
    : pid_(std::exchange(other.pid_, 0)), until_(other.until_), failed_(other.failed_) {}

Child& Child::operator=(Child&& other) noexcept {
  std::swap(pid_, other.pid_);
  std::swap(until_, other.until_);
  std::swap(failed_, other.failed_);
  return *this;
}

Child::~Child() {
  kill();
}

bool Child::runs() {
  int status = 0;
  if (pid_ != 0 && waitpid(pid_, &status, WNOHANG) != 0) {
    pid_ = 0;
    failed_ = status != 0;
  }
  if (pid_ != 0 && Clock::now() >= until_) {
    kill();
    failed_ = true;
  }
  return pid_ != 0;
}

void Child::kill() {
  if (pid_ == 0) return;
  ::kill(-pid_, SIGKILL);
  waitpid(pid_, nullptr, 0);
  pid_ = 0;
}

}  // namespace tenth::cli
