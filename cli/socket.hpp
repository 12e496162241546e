#pragma once

#include <chrono>
#include <optional>
#include <string>

#include "rules/result.hpp"

namespace tenth::cli {

/// A Unix stream socket that speaks lines. Every failure is one of reach: exit status 3.
class Socket {
 public:
  static Result<Socket> connect(const std::string& path);
  Socket(Socket&& other) noexcept;
  Socket& operator=(Socket&& other) noexcept;
  ~Socket();

  Result<bool> send_line(const std::string& line);
  /// The next line without its LF. Refused: cut, longer than any answer, or nothing within `patience`.
  Result<std::string> read_line(std::optional<std::chrono::milliseconds> patience);
  /// The same, but a line that does not come in time is no failure.
  Result<std::optional<std::string>> line_within(std::chrono::milliseconds patience);
  /// For a signal's handler that ends a wait: shutdown(2) on it makes `read_line` give up.
  int descriptor() const { return descriptor_; }

 private:
  std::optional<std::string> whole_line();
  /// More bytes, or false where none came in time.
  Result<bool> receive(std::optional<std::chrono::milliseconds> patience);
  explicit Socket(int descriptor, std::string path) : descriptor_(descriptor), path_(std::move(path)) {}
  int descriptor_ = -1;
  std::string path_;
  std::string waiting_;       ///< read, not yet given
  std::size_t searched_ = 0;  ///< so much of it holds no LF
};

}  // namespace tenth::cli
