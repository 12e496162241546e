#include "rules/nearest.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <vector>

namespace tenth {
namespace {

const std::vector<std::string> kFeatures = {"bore", "piston", "main_bearing", "main_journal", "rod_bearing"};

TEST(Nearest, HelpsWithSlips) {
  EXPECT_EQ(nearest("bpre", kFeatures), "bore");
  EXPECT_EQ(nearest("pistom", kFeatures), "piston");
  EXPECT_EQ(nearest("titel", std::vector<std::string>{"title", "table"}), "title");  // neighbours swapped
  EXPECT_EQ(nearest("main_baering", kFeatures), "main_bearing");
  EXPECT_EQ(nearest("mainjournal", kFeatures), "main_journal");
  EXPECT_EQ(nearest("rod_bearings", kFeatures), "rod_bearing");
}

TEST(Nearest, SaysNothingWhereNothingIsNear) {
  EXPECT_EQ(nearest("crankpin", kFeatures), "");
  EXPECT_EQ(nearest("", kFeatures), "");
  EXPECT_EQ(nearest("bore", {}), "");
  EXPECT_EQ(nearest("x", std::vector<std::string>{"y"}), "");  // all of it is wrong
  EXPECT_EQ(nearest("cm", std::vector<std::string>{"mm", "in"}), "");
  EXPECT_EQ(nearest(std::string(100'000, 'a'), kFeatures), "");
}

TEST(UniqueBeginning, NamesTheOnlyOne) {
  EXPECT_EQ(unique_beginning("b", kFeatures), "bore");
  EXPECT_EQ(unique_beginning("main_b", kFeatures), "main_bearing");
  EXPECT_EQ(unique_beginning("main", kFeatures), "");
  EXPECT_EQ(unique_beginning("", kFeatures), "");
  EXPECT_EQ(unique_beginning("", std::vector<std::string>{"only"}), "");
  EXPECT_EQ(unique_beginning("bores", kFeatures), "");
}

TEST(UniqueBeginning, AWholeWordWinsOverLongerOnes) {
  const std::vector<std::string> labels = {"1", "10", "11"};
  EXPECT_EQ(unique_beginning("1", labels), "1");
  EXPECT_EQ(unique_beginning("11", labels), "11");
}

TEST(Quoted, KeepsAMessageOnOneLine) {
  EXPECT_EQ(quoted(std::string("bore")), "'bore'");
  EXPECT_EQ(quoted(std::string_view("a\n\x1B[2J\x7F")), "'a\\x0A\\x1B[2J\\x7F'");
  EXPECT_EQ(quoted(std::string(61, 'x')), "'" + std::string(60, 'x') + "…'");
  EXPECT_EQ(quoted(std::string(59, 'x') + "µm"), "'" + std::string(59, 'x') + "…'");  // no half of a character
  EXPECT_EQ(quoted(std::string(61, '\x96')), "'…'");  // whose characters have no beginning
}

RC_GTEST_PROP(NearestProperty, OneSlipInALongWordIsFound, ()) {
  std::string word = *rc::gen::elementOf(kFeatures);
  const auto at = *rc::gen::inRange<std::size_t>(0, word.size());
  const std::string right = word;
  switch (*rc::gen::inRange(0, 3)) {
    case 0:
      word.erase(at, 1);
      break;
    case 1:
      word.insert(at, 1, 'z');
      break;
    default:
      word[at] = 'z';
  }
  RC_ASSERT(nearest(word, kFeatures) == right);
}

}  // namespace
}  // namespace tenth
