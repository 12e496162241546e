#include "cli/progress.hpp"

#include <gtest/gtest.h>

#include <sstream>

namespace tenth::cli {
namespace {

std::string told(bool terminal) {
  std::istringstream in;
  std::ostringstream out, err;
  World world{in, out, err, false, false, terminal, {}};
  {
    Progress progress(world);
    progress.entries(500, 25'000);
    progress.entries(10'000, 25'000);
    progress.entries(19'999);
    progress.entries(20'313);
    progress.entries(29'999);
    progress.pages(9, 31);
    progress.pages(10, 31);
  }
  EXPECT_EQ(out.str(), "");
  return err.str();
}

TEST(Progress, CountsOnATerminalAndWipesItAway) {
  EXPECT_EQ(told(true),
            "\r\033[K10000 of 25000 entries read\r\033[K20313 entries read\r\033[K10 of 31 pages printed\r\033[K");
}

TEST(Progress, IsSilentWhereNobodyLooks) {
  EXPECT_EQ(told(false), "");
}

}  // namespace
}  // namespace tenth::cli
