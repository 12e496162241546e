#include "tests/end_to_end/process.hpp"

#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <stdexcept>
#include <thread>

namespace acceptance {
namespace {

struct Pipe {
  Pipe() {
    if (pipe2(ends.data(), O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
  }
  std::array<int, 2> ends{};
};

void shut(int& descriptor) {
  if (descriptor >= 0) close(descriptor);
  descriptor = -1;
}

int remaining(Deadline until) {
  const auto left = std::chrono::duration_cast<Millis>(until - std::chrono::steady_clock::now()).count();
  return left > 0 ? static_cast<int>(left) + 1 : 0;
}

// Appends what can be read now; closes the descriptor at its end.
void take(int& descriptor, std::string& into) {
  std::array<char, 65536> bytes{};
  const ssize_t got = read(descriptor, bytes.data(), bytes.size());
  if (got > 0) {
    into.append(bytes.data(), static_cast<std::size_t>(got));
  } else {
    shut(descriptor);
  }
}

}  // namespace

Child::Child(const Words& words) {
  std::signal(SIGPIPE, SIG_IGN);
  Pipe input, output, errors;
  posix_spawn_file_actions_t files;
  posix_spawn_file_actions_init(&files);
  posix_spawn_file_actions_adddup2(&files, input.ends[0], 0);
  posix_spawn_file_actions_adddup2(&files, output.ends[1], 1);
  posix_spawn_file_actions_adddup2(&files, errors.ends[1], 2);
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  sigset_t defaults;
  sigemptyset(&defaults);
  sigaddset(&defaults, SIGPIPE);
  posix_spawnattr_setsigdefault(&attributes, &defaults);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGDEF);

  std::vector<char*> arguments;
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  const int failed = posix_spawnp(&pid_, arguments[0], &files, &attributes, arguments.data(), environ);
  posix_spawnattr_destroy(&attributes);
  posix_spawn_file_actions_destroy(&files);
  shut(input.ends[0]);
  shut(output.ends[1]);
  shut(errors.ends[1]);
  input_ = input.ends[1];
  output_ = output.ends[0];
  errors_ = errors.ends[0];
  if (failed != 0) throw std::runtime_error("cannot start " + words.front());
}

Child::~Child() {
  if (!status_) {
    signal(SIGKILL);
    join(in(std::chrono::seconds(5)));
  }
  shut(input_);
  shut(output_);
  shut(errors_);
}

void Child::feed(std::string_view input) {
  while (!input.empty()) {
    const ssize_t written = write(input_, input.data(), input.size());
    if (written <= 0) return;
    input.remove_prefix(static_cast<std::size_t>(written));
  }
}

void Child::close_input() {
  shut(input_);
}

void Child::signal(int number) const {
  ::kill(pid_, number);
}

bool Child::read_some(Deadline until) {
  std::array<pollfd, 2> streams{{{output_, POLLIN, 0}, {errors_, POLLIN, 0}}};
  if (poll(streams.data(), streams.size(), remaining(until)) <= 0) return false;
  if (streams[0].revents != 0) take(output_, out);
  if (streams[1].revents != 0) take(errors_, err);
  return true;
}

std::optional<std::string> Child::line(Deadline until) {
  std::size_t end = out.find('\n');
  while (end == std::string::npos) {
    if (output_ < 0 || !read_some(until)) return std::nullopt;
    end = out.find('\n');
  }
  std::string found = out.substr(0, end);
  out.erase(0, end + 1);
  return found;
}

void Child::drain(Deadline until) {
  while ((output_ >= 0 || errors_ >= 0) && read_some(until)) {
  }
}

std::optional<int> Child::join(Deadline until) {
  while (!status_) {
    int raw = 0;
    if (waitpid(pid_, &raw, WNOHANG) == pid_) {
      status_ = WIFSIGNALED(raw) ? 128 + WTERMSIG(raw) : WEXITSTATUS(raw);
    } else if (std::chrono::steady_clock::now() > until) {
      return std::nullopt;
    } else {
      std::this_thread::sleep_for(Millis(1));
    }
  }
  return status_;
}

Ran run(const Words& words, std::string_view input, Millis limit) {
  const Deadline until = in(limit);
  Child child(words);
  child.feed(input);
  child.close_input();
  child.drain(until);
  const std::optional<int> status = child.join(until);
  return {status.value_or(-1), child.out, child.err};
}

}  // namespace acceptance
