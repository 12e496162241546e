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
    progress.at(500, 25'000);
    progress.at(10'000, 25'000);
    progress.at(20'000);
  }
  EXPECT_EQ(out.str(), "");
  return err.str();
}

TEST(Progress, CountsOnATerminalAndWipesItAway) {
  EXPECT_EQ(told(true), "\r10000 of 25000 entries read\r20000 entries read\r\033[K");
}

TEST(Progress, IsSilentWhereNobodyLooks) {
  EXPECT_EQ(told(false), "");
}

}  // namespace
}  // namespace tenth::cli
