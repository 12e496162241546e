#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "simulators/wire.hpp"

namespace tenth::simulators {

/// A pseudo-terminal under a link of its own name. Raw: no echo, no translation. Its far side is held open here too, so
/// bytes sent before a reader comes wait for it, some 10 KiB. When it is destroyed the link goes, and a reader sees
/// end-of-file or EIO.
class Port : public Wire {
 public:
  /// Refused where the pseudo-terminal cannot be had or something that is no dead link stands at `link`.
  static Result<std::unique_ptr<Port>> open(const std::filesystem::path& link);

  ~Port() override;

  Result<std::size_t> offer(std::string_view bytes) override;
  int descriptor() const override { return near_; }
  std::string hear() override;

  /// The lock of a reader that is gone is gone with it: that is how a dead mark is known.
  void forget_dead_reader() override;

  const std::string& where() const override { return device_; }

 private:
  Port(int near, int far, std::string device, std::filesystem::path link);

  int near_, far_;
  std::string device_;
  std::filesystem::path link_;
};

}  // namespace tenth::simulators
