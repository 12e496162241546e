// Where the two programs are, and the daemon as a process of its own.
#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "tests/end_to_end/process.hpp"

namespace acceptance {

inline std::string tenth_path() {
  return TENTH_BINARY_DIR "/bin/tenth";
}
inline std::string tenthd_path() {
  return TENTH_BINARY_DIR "/bin/tenthd";
}

class Daemon {
 public:
  // Everything it needs lies in `home`: configuration, state and socket.
  explicit Daemon(std::filesystem::path home) : home_(std::move(home)) {}
  ~Daemon();

  std::filesystem::path socket() const { return home_ / "socket"; }
  std::filesystem::path state() const { return home_ / "state"; }
  std::filesystem::path ledger() const { return state() / "ledger.db"; }
  std::filesystem::path config() const { return home_ / "tenthd.toml"; }
  Words command(const Words& more = {}) const;

  // Starts it and waits until its socket answers.
  void start(const Words& more = {});
  // SIGTERM; its exit status.
  int stop();
  // SIGKILL: what a power cut leaves.
  void kill();
  bool running();
  pid_t pid() const { return child_->pid(); }

 private:
  std::filesystem::path home_;
  std::unique_ptr<Child> child_;
};

// Does anything answer on this socket?
bool answers(const std::filesystem::path& socket);

}  // namespace acceptance
