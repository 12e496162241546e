#pragma once

#include <cstdint>

#include "cli/world.hpp"

namespace tenth::cli {

/// Counts aloud on a terminal, every so many rows, and wipes that away at its end.
class Progress {
 public:
  explicit Progress(World& world) : world_(world) {}
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  /// So many entries are read, of `all`, where that is known.
  void at(std::int64_t count, std::int64_t all = 0);

 private:
  World& world_;
  bool told_ = false;
};

}  // namespace tenth::cli
