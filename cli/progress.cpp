#include "cli/progress.hpp"

#include <ostream>
#include <utility>

namespace tenth::cli {

Progress::~Progress() {
  if (told_) world_.err << "\r\033[K" << std::flush;
}

void Progress::entries(std::int64_t count, std::int64_t all) {
  constexpr std::int64_t kEvery = 10'000;
  const std::string of = all > 0 ? " of " + std::to_string(all) : "";
  if (count / kEvery == std::exchange(tens_, count / kEvery)) return;
  say(std::to_string(count) + of + " entries read");
}

void Progress::pages(int page, int all) {
  constexpr int kEvery = 10;
  if (page % kEvery == 0) say(std::to_string(page) + " of " + std::to_string(all) + " pages printed");
}

void Progress::say(const std::string& what) {
  if (!world_.err_is_terminal) return;
  told_ = true;
  world_.err << "\r\033[K" << what << std::flush;
}

}  // namespace tenth::cli
