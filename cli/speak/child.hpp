#pragma once

#include <sys/types.h>

#include <chrono>
#include <optional>
#include <string>
#include <vector>

namespace tenth::cli {

/// A program that runs beside us, in a process group of its own, its outputs thrown away. It never outlives this
/// object, nor its time.
class Child {
 public:
  using Clock = std::chrono::steady_clock;

  /// Nothing where it cannot be started. `input` is its standard input; the descriptor stays the caller's.
  static std::optional<Child> start(const std::vector<std::string>& words, int input, Clock::duration limit);
  Child(Child&& other) noexcept;
  Child& operator=(Child&& other) noexcept;
  ~Child();

  /// Whether it still runs; one whose time is over is killed.
  bool runs();
  /// It ended by itself with another status than 0, or its time was over.
  bool failed() const { return failed_; }

 private:
  Child(pid_t pid, Clock::time_point until) : pid_(pid), until_(until) {}
  void kill();

  pid_t pid_ = 0;
  Clock::time_point until_;
  bool failed_ = false;
};

}  // namespace tenth::cli
