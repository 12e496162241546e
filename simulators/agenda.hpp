#pragma once

#include <chrono>
#include <functional>
#include <map>
#include <optional>

namespace tenth::simulators {

using Clock = std::chrono::steady_clock;
using Time = Clock::time_point;

/// What is to be done, and when. It reads no clock.
class Agenda {
 public:
  using Task = std::function<void(Time now)>;

  void add(Time when, Task task) { tasks_.emplace(when, std::move(task)); }

  /// When the first of them is due.
  std::optional<Time> next() const;

  /// Does all that is due, in the order of its times; what a task adds waits for the next run.
  void run(Time now);

 private:
  std::multimap<Time, Task> tasks_;
};

}  // namespace tenth::simulators
