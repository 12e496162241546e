#include "simulators/words.hpp"

#include <gtest/gtest.h>

namespace tenth::simulators {
namespace {

using namespace std::string_view_literals;

const std::vector kThree = {"bore"sv, "12"sv, "in"sv};

TEST(Words, AreReadOneAfterAnother) {
  Words words(kThree, "form");
  EXPECT_EQ(words.text(), "bore");
  EXPECT_EQ(words.whole(0, 12), 12);
  EXPECT_EQ(words.unit(), Unit::in);
  EXPECT_TRUE(words.finish());
}

TEST(Words, KeepTheFirstThingWrong) {
  Words words(kThree, "form");
  words.amount();
  words.unit();
  EXPECT_EQ(words.finish().error(), "'bore' is no value: write a decimal such as 83.012 or -0.0003");
}

TEST(Words, MissingOrTooManyTellTheWholeForm) {
  Words missing({}, "form");
  EXPECT_EQ(missing.text(), "");
  EXPECT_EQ(missing.finish().error(), "it breaks off: write form");
  Words many(kThree, "form");
  many.text();
  EXPECT_EQ(many.finish().error(), "'12' is not understood: write form");
}

TEST(Words, WholeNumbersLieInTheirBounds) {
  const auto refused = [](std::string_view word) {
    Words words(std::span(&word, 1), "form");
    words.whole(1, 99);
    return words.finish() ? "" : words.finish().error();
  };
  EXPECT_EQ(refused("1"), "");
  EXPECT_EQ(refused("99"), "");
  for (const auto* word : {"0", "100", "-1", "1.0", "x", "99999999999"}) {
    EXPECT_EQ(refused(word),
              "'" + std::string(word) + "' is not understood: write a whole number from 1 to 99, as in form");
  }
}

TEST(Words, TakeOnlyWhatComesNext) {
  Words words(kThree, "form");
  EXPECT_FALSE(words.take("12"));
  EXPECT_TRUE(words.has_other_than({"12", "in"}));
  EXPECT_FALSE(words.has_other_than({"bore"}));
  EXPECT_TRUE(words.take("bore"));
  EXPECT_EQ(words.choice({"11", "12"}), 1U);
  EXPECT_EQ(words.choice({"mm"}), 0U);
  EXPECT_EQ(words.finish().error(), "'in' is not understood: write form");
}

TEST(Split, PartsAtBlanks) {
  EXPECT_EQ(split("  a\tbc   d "), (std::vector{"a"sv, "bc"sv, "d"sv}));
  EXPECT_TRUE(split(" \t").empty());
}

}  // namespace
}  // namespace tenth::simulators
