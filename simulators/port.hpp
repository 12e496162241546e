#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "simulators/amount.hpp"

namespace tenth::simulators {

/// A pseudo-terminal that a gauge hangs on, under a link of its own name. Raw: no echo, no translation.
/// Its far side is held open here too, so bytes sent before a reader comes wait for it. Destroying it is a hang-up: the
/// link goes, and a reader sees end-of-file or EIO.
class Port {
 public:
  /// Refused where the pseudo-terminal cannot be had or something that is no dead link stands at `link`.
  static Result<std::unique_ptr<Port>> open(const std::filesystem::path& link);

  Port(const Port&) = delete;
  Port& operator=(const Port&) = delete;
  ~Port();

  /// Refused where nobody has read for so long (some 10 KiB) that not all of the bytes can wait.
  Result<void> send(std::string_view bytes);

  /// On a real port the mark "exclusive" ends when its holder closes. Ours stays open, so the mark of a reader that is
  /// gone (its lock is gone with it) is taken away here; to be called now and then.
  void forget_dead_reader();

  const std::string& device() const { return device_; }

 private:
  Port(int near, int far, std::string device, std::filesystem::path link);

  int near_, far_;
  std::string device_;
  std::filesystem::path link_;
};

}  // namespace tenth::simulators
