// `tenth` at a terminal of its own, where it may ask.
#pragma once

#include <sys/types.h>

#include <string>
#include <string_view>

#include "tests/end_to_end/process.hpp"

namespace acceptance {

class Terminal {
 public:
  explicit Terminal(const Words& words);
  ~Terminal();
  Terminal(const Terminal&) = delete;
  Terminal& operator=(const Terminal&) = delete;

  // Waits until it shows this, and types the keys then.
  void answer(std::string_view question, std::string_view keys);
  // Its exit status, 128 + the signal's number where one ended it.
  int join();
  // All that it has shown, the keys typed among it.
  const std::string& shown() const { return shown_; }

 private:
  bool read_some(Deadline until);

  pid_t pid_ = -1;
  int terminal_ = -1;
  std::string shown_;
};

}  // namespace acceptance
