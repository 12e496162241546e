#include "rules/remedies/what_if.hpp"

#include <gtest/gtest.h>

#include "tests/rules/remedies/block.hpp"

namespace tenth {
namespace {

using testing::Block;
using testing::len;

class WhatIf : public ::testing::Test {
 protected:
  WhatIf() {
    block.mains("0.0020 in", "0.0030 in");
    block.read("main_bearing", {"2.7515 in"});
    block.read("main_journal", {"2.7500 in"});
    block.shell("std-upper", Half::upper, "0.0960 in", 0);
    block.shell("std-lower", Half::lower, "0.0960 in", 0);
    block.shell("thin", Half::lower, "0.0950 in", 1);
    block.fitted(1, "std-upper", "std-lower");
  }
  Result<FitResult> ask(const Supposed& supposed) {
    const Engine& engine = block.work.done();
    return what_if(engine, &block.stock, engine.spec->fits.front(), 1, supposed);
  }
  Block block{1};
};

TEST_F(WhatIf, NothingSupposedIsAsItIs) {
  EXPECT_EQ(ask({})->mean, len("0.0015 in"));
}

TEST_F(WhatIf, AnotherSizeOfEitherSide) {
  EXPECT_EQ(ask({len("2.7525 in"), {}, {}})->mean, len("0.0025 in"));
  EXPECT_EQ(ask({{}, len("2.7490 in"), {}})->verdict, Verdict::in);
}

TEST_F(WhatIf, WhatWasNotMeasuredMayBeSupposed) {
  block.work.engine.readings.clear();
  EXPECT_EQ(ask({len("2.7525 in"), len("2.7500 in"), {}})->mean, len("0.0025 in"));
}

TEST_F(WhatIf, OtherHalves) {
  EXPECT_EQ(ask({{}, {}, std::pair("std-upper", "thin")})->mean, len("0.0025 in"));
}

TEST_F(WhatIf, HalvesOnASupposedJournal) {
  EXPECT_EQ(ask({{}, len("2.7495 in"), std::pair("std-upper", "thin")})->mean, len("0.0030 in"));
}

TEST_F(WhatIf, WhatTheStockLacksIsRefused) {
  const auto refused = ask({{}, {}, std::pair("std-upper", "thinn")});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, "unknown_shell");
  EXPECT_NE(refused.error().remedy.find("thin"), std::string::npos);
}

TEST_F(WhatIf, WithoutAKnownWallItIsRefused) {
  block.fitted(1, "std-upper", "");
  const auto refused = ask({{}, {}, std::pair("std-upper", "thin")});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, "unknown_wall");
  EXPECT_EQ(refused.error().message, "no wall known for the lower half fitted, or for 'thin'");
}

TEST_F(WhatIf, WithoutAStockHalvesAreRefused) {
  const Engine& engine = block.work.done();
  EXPECT_EQ(what_if(engine, nullptr, engine.spec->fits.front(), 1, {{}, {}, std::pair("a", "b")}).error().code,
            "unknown_wall");
}

TEST_F(WhatIf, ChangesNothing) {
  ASSERT_TRUE(ask({len("2.7525 in"), {}, {}}));
  EXPECT_EQ(judge(block.work.done()).fits.front().mean, len("0.0015 in"));
}

}  // namespace
}  // namespace tenth
