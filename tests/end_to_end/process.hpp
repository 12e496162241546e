// Child processes: run to their end with everything caught, or kept running and read line by line.
#pragma once

#include <sys/types.h>

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace acceptance {

using Words = std::vector<std::string>;
using Millis = std::chrono::milliseconds;
using Deadline = std::chrono::steady_clock::time_point;

inline Deadline in(Millis wait) {
  return std::chrono::steady_clock::now() + wait;
}

// One child with pipes to its three streams. It never outlives this object.
class Child {
 public:
  explicit Child(const Words& words);
  ~Child();
  Child(const Child&) = delete;
  Child& operator=(const Child&) = delete;

  pid_t pid() const { return pid_; }
  void feed(std::string_view input);
  void close_input();
  void signal(int number) const;
  // The next whole line of its standard output without the line end; nothing at the deadline or at its end.
  std::optional<std::string> line(Deadline until);
  // Reads both streams until they close, at most until the deadline.
  void drain(Deadline until);
  // Its exit status (128 + the signal's number where one ended it); nothing if it still runs at the deadline.
  std::optional<int> join(Deadline until);

  std::string out, err;

 private:
  bool read_some(Deadline until);

  pid_t pid_ = -1;
  int input_ = -1, output_ = -1, errors_ = -1;
  std::optional<int> status_;
};

struct Ran {
  int status = -1;
  std::string out, err;
};

// Runs the words to their end. A program that is still running after `limit` is killed and gives the status -1.
Ran run(const Words& words, std::string_view input = {}, Millis limit = std::chrono::seconds(40));

}  // namespace acceptance
