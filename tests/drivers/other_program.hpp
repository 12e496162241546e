#pragma once

#include <sys/types.h>

#include <functional>
#include <string>

namespace tenth::test {

/// Another process, of a name of its own, that does one thing with a port and then holds what it took.
class OtherProgram {
 public:
  /// Returns when `act` is done.
  explicit OtherProgram(const std::function<void()>& act);
  OtherProgram(const OtherProgram&) = delete;
  OtherProgram& operator=(const OtherProgram&) = delete;
  ~OtherProgram() { kill(); }

  /// As `kill -9` does; returns when it is gone.
  void kill();
  std::string process() const { return std::to_string(process_); }

 private:
  pid_t process_ = -1;
};

inline constexpr const char* kOtherName = "other-tool";

}  // namespace tenth::test
