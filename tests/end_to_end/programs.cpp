#include "tests/end_to_end/programs.hpp"

#include <gtest/gtest.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <csignal>
#include <thread>

namespace acceptance {

bool answers(const std::filesystem::path& socket) {
  const int client = ::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  socket.string().copy(address.sun_path, sizeof address.sun_path - 1);
  const bool connected = connect(client, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0;
  close(client);
  return connected;
}

Daemon::~Daemon() {
  if (!child_) return;
  child_->signal(SIGTERM);
  if (!child_->join(in(std::chrono::seconds(5)))) ADD_FAILURE() << "tenthd does not stop on SIGTERM";
  child_->drain(in(Millis(0)));
  if (testing::Test::HasFailure() && !child_->err.empty()) std::fputs(("tenthd said:\n" + child_->err).c_str(), stderr);
}

Words Daemon::command(const Words& more) const {
  Words words{tenthd_path(), "--config", config(), "--state", state(), "--socket", socket()};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

void Daemon::start(const Words& more) {
  child_ = std::make_unique<Child>(command(more));
  const Deadline until = in(std::chrono::seconds(20));
  while (!answers(socket())) {
    if (child_->join(in(Millis(5)))) break;
    ASSERT_LT(std::chrono::steady_clock::now(), until) << "tenthd is not ready in time";
  }
  if (running()) return;
  child_->drain(in(std::chrono::seconds(1)));
  FAIL() << "tenthd ended at its start with " << *child_->join(in(Millis(0))) << ": " << child_->err;
}

int Daemon::stop() {
  child_->signal(SIGTERM);
  child_->drain(in(std::chrono::seconds(5)));
  const std::optional<int> status = child_->join(in(std::chrono::seconds(5)));
  EXPECT_TRUE(status) << "tenthd does not stop on SIGTERM";
  child_.reset();
  return status.value_or(-1);
}

void Daemon::kill() {
  child_->signal(SIGKILL);
  child_->join(in(std::chrono::seconds(5)));
  child_.reset();
}

bool Daemon::running() {
  return child_ && !child_->join(in(Millis(0)));
}

}  // namespace acceptance
