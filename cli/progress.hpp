#pragma once

#include <cstdint>
#include <string>

#include "cli/world.hpp"

namespace tenth::cli {

/// Counts aloud on a terminal, and wipes that away at its end.
class Progress {
 public:
  explicit Progress(World& world) : world_(world) {}
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  /// "10000 of 25000 entries read"; `all` is 0 where it is not known. Heard every 10 000 entries, or 10 pages.
  void entries(std::int64_t count, std::int64_t all = 0);
  void pages(int page, int all);

 private:
  void say(const std::string& what);
  World& world_;
  bool told_ = false;
  std::int64_t tens_ = 0;  ///< of thousands of entries that were told
};

}  // namespace tenth::cli
