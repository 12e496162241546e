#include "drivers/link/look_around.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace tenth::drivers {
namespace {

using std::chrono::milliseconds;

class Looking : public testing::Test {
 protected:
  std::string find(const std::string& name) {
    const auto found = around_.find(
        [&](const std::vector<std::string>& all) -> Result<std::string> {
          if (std::find(all.begin(), all.end(), name) == all.end()) return refuse("absent", "", "");
          return "/dev/" + name;
        },
        now_);
    return found.value_or("none");
  }

  std::vector<std::string> plugged_;
  int looks_ = 0;
  std::chrono::steady_clock::time_point now_;
  LookAround<std::string> around_{[this] {
    ++looks_;
    return plugged_;
  }};
};

TEST_F(Looking, OneLookServesAllThatAskForWhatIsGone) {
  for (int i = 0; i < 100; ++i) {
    EXPECT_EQ(find("a"), "none");
    EXPECT_EQ(find("b"), "none");
    now_ += milliseconds(10);
  }
  EXPECT_EQ(looks_, 4) << "in a second";
}

TEST_F(Looking, WhatIsBackIsFoundAfterAMoment) {
  EXPECT_EQ(find("a"), "none");
  plugged_ = {"a"};
  now_ += LookAround<std::string>::kMoment;
  EXPECT_EQ(find("a"), "/dev/a");
}

TEST_F(Looking, WhatIsThereIsLookedAtAnewBeforeItIsUsed) {
  plugged_ = {"a"};
  EXPECT_EQ(find("a"), "/dev/a");
  plugged_ = {"b"};
  EXPECT_EQ(find("a"), "none") << "its name may be another's by now";
}

}  // namespace
}  // namespace tenth::drivers
