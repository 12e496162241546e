#include "rules/reading.hpp"

#include <gtest/gtest.h>

#include <set>

namespace tenth {
namespace {

// The words of the public interface, in the order of the enumerations.
TEST(Names, OfDoubts) {
  const std::string_view words[] = {"no_place", "wrong_kind", "no_setting", "setting_old",  "unit",     "range",
                                    "tenfold",  "inch_mm",    "turn",       "repeat",       "too_soon", "damaged",
                                    "away",     "overdue",    "drift",      "setting_void", "gauge"};
  int value = 0;
  for (const std::string_view word : words) {
    EXPECT_EQ(name(static_cast<Doubt>(value)), word);
    EXPECT_EQ(doubt_named(word), static_cast<Doubt>(value++));
  }
}

TEST(Doubts, OfPlaceKindSettingAndUnitAreNeverKept) {
  const std::set<Doubt> never = {Doubt::no_place, Doubt::wrong_kind, Doubt::no_setting, Doubt::unit};
  for (int doubt = 0; doubt <= static_cast<int>(Doubt::gauge); ++doubt)
    EXPECT_EQ(can_be_kept(static_cast<Doubt>(doubt)), !never.contains(static_cast<Doubt>(doubt))) << doubt;
}

TEST(Names, OfStates) {
  EXPECT_EQ(name(State::kept), "kept");
  EXPECT_EQ(name(State::suspect), "suspect");
  EXPECT_EQ(name(State::voided), "void");
  EXPECT_EQ(state_named("void"), State::voided);
}

TEST(Names, OfGauges) {
  for (const std::string_view word : {"inside", "outside", "depth", "gap", "any"})
    EXPECT_EQ(name(*measures_named(word)), word);
  for (const std::string_view word : {"size", "deviation"}) EXPECT_EQ(name(*reads_named(word)), word);
  for (const std::string_view word : {"gauge", "hand"}) EXPECT_EQ(name(*source_named(word)), word);
}

TEST(Names, AnotherWordIsNone) {
  EXPECT_EQ(doubt_named("tired"), std::nullopt);
  EXPECT_EQ(state_named("voided"), std::nullopt);
  EXPECT_EQ(measures_named(""), std::nullopt);
}

}  // namespace
}  // namespace tenth
