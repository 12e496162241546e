#include "cli/progress.hpp"

#include <ostream>

namespace tenth::cli {

Progress::~Progress() {
  if (told_) world_.err << "\r\033[K" << std::flush;
}

void Progress::at(std::int64_t count, std::int64_t all) {
  constexpr std::int64_t kEvery = 10'000;
  if (!world_.err_is_terminal || count % kEvery != 0) return;
  told_ = true;
  world_.err << '\r' << count;
  if (all > 0) world_.err << " of " << all;
  world_.err << " entries read" << std::flush;
}

}  // namespace tenth::cli
