#include "rules/joined.hpp"

#include <gtest/gtest.h>

#include <set>
#include <vector>

namespace tenth {
namespace {

TEST(Joined, PutsCommasOrWhatIsAskedForBetween) {
  const std::vector<std::string> words = {"top", "middle", "bottom"};
  EXPECT_EQ(joined(words), "top, middle, bottom");
  EXPECT_EQ(joined(words, " and "), "top and middle and bottom");
  EXPECT_EQ(joined(std::set<std::string>{"b", "a"}), "a, b");
  EXPECT_EQ(joined(std::vector<std::string_view>{"top"}), "top");
  EXPECT_EQ(joined(std::vector<std::string>{}), "");
}

}  // namespace
}  // namespace tenth
