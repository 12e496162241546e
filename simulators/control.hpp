#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "simulators/amount.hpp"

namespace tenth::simulators {

/// Lines that tell the simulator what to do, from standard input or a FIFO.
class Control {
 public:
  /// "-" is standard input; else the path of a FIFO, made (and removed at the end) where there is none.
  static Result<std::unique_ptr<Control>> open(const std::string& path);

  Control(const Control&) = delete;
  Control& operator=(const Control&) = delete;
  ~Control();

  /// To be polled for input.
  int descriptor() const { return descriptor_; }

  /// The whole lines that have come; to be called when there is input. At its end `ended` is true.
  std::vector<std::string> lines();
  bool ended() const { return ended_; }

 private:
  Control(int descriptor, std::string made) : descriptor_(descriptor), made_(std::move(made)) {}

  int descriptor_;
  std::string made_;  ///< the FIFO to remove; empty: none
  std::string partial_;
  bool ended_ = false;
};

}  // namespace tenth::simulators
