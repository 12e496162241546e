#include "daemon/alerting/program_run.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/mman.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/posix/stream_descriptor.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/this_coro.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <csignal>
#include <memory>
#include <system_error>

namespace tenth {
namespace {

namespace asio = boost::asio;
using Descriptor = asio::posix::stream_descriptor;

constexpr auto kTuple = asio::as_tuple(asio::use_awaitable);

/// A descriptor that closes itself.
struct Owned {
  explicit Owned(int opened) : number(opened) {}
  ~Owned() {
    if (number >= 0) close(number);
  }
  Owned(const Owned&) = delete;
  Owned& operator=(const Owned&) = delete;
  int release() { return std::exchange(number, -1); }
  int number;
};

/// The input as a file without a name: no pipe that would have to be fed.
int input_file(const std::string& input) {
  Owned file(memfd_create("alert", MFD_CLOEXEC));
  if (file.number < 0 || write(file.number, input.data(), input.size()) != static_cast<ssize_t>(input.size()) ||
      lseek(file.number, 0, SEEK_SET) != 0)
    return -1;
  return file.release();
}

/// The new process, or an error number.
int spawn(pid_t& pid, const std::vector<std::string>& words, int input, int output) {
  posix_spawn_file_actions_t files;
  posix_spawn_file_actions_init(&files);
  posix_spawn_file_actions_adddup2(&files, input, STDIN_FILENO);
  posix_spawn_file_actions_adddup2(&files, output, STDOUT_FILENO);
  posix_spawn_file_actions_adddup2(&files, output, STDERR_FILENO);
  posix_spawn_file_actions_addclosefrom_np(&files, STDERR_FILENO + 1);
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  sigset_t signals;
  sigemptyset(&signals);
  posix_spawnattr_setsigmask(&attributes, &signals);
  for (const int ignored : {SIGPIPE, SIGXFSZ}) sigaddset(&signals, ignored);  // by us, not by the program
  posix_spawnattr_setsigdefault(&attributes, &signals);
  posix_spawnattr_setpgroup(&attributes, 0);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF | POSIX_SPAWN_SETPGROUP);
  std::vector<char*> argv;
  for (const std::string& word : words) argv.push_back(const_cast<char*>(word.c_str()));
  argv.push_back(nullptr);
  const int error = posix_spawn(&pid, argv[0], &files, &attributes, argv.data(), environ);
  posix_spawnattr_destroy(&attributes);
  posix_spawn_file_actions_destroy(&files);
  return error;
}

/// Readable once the process has ended; -1 where there is none. (glibc 2.36 declares its own without C linkage.)
int process_descriptor(pid_t pid) {
  return static_cast<int>(syscall(SYS_pidfd_open, pid, 0));
}

struct Running {
  Running(const asio::any_io_executor& loop, pid_t started, int pidfd, int out)
      : pid(started), process(loop, pidfd), output(loop, out), limit(loop) {}
  /// Killed and gone, whatever becomes of us.
  ~Running() {
    if (pid > 0) kill(-pid, SIGKILL), waitpid(pid, nullptr, 0);
  }
  pid_t pid;
  Descriptor process, output;
  asio::steady_timer limit;
  ProgramEnd end;
};

asio::awaitable<void> listen_to(std::shared_ptr<Running> running) {
  std::array<char, 4096> block{};
  while (true) {
    const auto [error, count] = co_await running->output.async_read_some(asio::buffer(block), kTuple);
    if (error) co_return;
    running->end.said.append(block.data(), std::min(count, kMostSaid - running->end.said.size()));
  }
}

/// What it wrote before it ended, and nobody has read yet.
void read_last(Running& running) {
  std::array<char, kMostSaid> block{};
  boost::system::error_code error;
  running.output.non_blocking(true, error);
  const std::size_t count = error ? 0 : running.output.read_some(asio::buffer(block), error);
  running.end.said.append(block.data(), std::min(count, kMostSaid - running.end.said.size()));
}

tl::unexpected<Refusal> not_started(const std::string& program, int error) {
  return refuse("program", program + " cannot be started: " + std::generic_category().message(error),
                "see that it is there and may be run");
}

}  // namespace

asio::awaitable<Result<ProgramEnd>> run_program(std::vector<std::string> words, std::string input,
                                                std::chrono::milliseconds limit) {
  const auto loop = co_await asio::this_coro::executor;
  std::array<int, 2> ends{-1, -1};
  if (pipe2(ends.data(), O_CLOEXEC) != 0) co_return not_started(words.front(), errno);
  Owned output(ends[0]), theirs(ends[1]), given(input_file(input));
  if (given.number < 0) co_return not_started(words.front(), errno);
  pid_t pid = 0;
  if (const int error = spawn(pid, words, given.number, theirs.number)) co_return not_started(words.front(), error);
  const int process = process_descriptor(pid);
  if (process < 0) {
    kill(-pid, SIGKILL);
    waitpid(pid, nullptr, 0);
    co_return not_started(words.front(), EMFILE);
  }
  const auto running = std::make_shared<Running>(loop, pid, process, output.release());
  asio::co_spawn(loop, listen_to(running), asio::detached);
  running->limit.expires_after(limit);
  running->limit.async_wait([running](const boost::system::error_code& error) {
    if (error || running->pid == 0) return;
    running->end.killed = true;
    kill(-running->pid, SIGKILL);
  });
  co_await running->process.async_wait(Descriptor::wait_read, kTuple);
  int status = 0;
  kill(-running->pid, SIGKILL);  // what it left behind; the group's number is held until it is waited for
  waitpid(std::exchange(running->pid, 0), &status, 0);
  running->limit.cancel();
  read_last(*running);
  running->output.close();
  running->end.status = WIFSIGNALED(status) ? 128 + WTERMSIG(status) : WEXITSTATUS(status);
  co_return running->end;
}

}  // namespace tenth
