#include "cli/render/text.hpp"

#include <gtest/gtest.h>

namespace tenth::cli {
namespace {

TEST(Text, IsEmptyWhereTheAnswerHasNone) {
  const Json object = {{"name", "bore\n"}, {"none", nullptr}, {"seq", 12}, {"size_mm", 83.0104}};
  EXPECT_EQ(text(object, "name"), "bore\\x0A");
  EXPECT_EQ(text(object, "none"), "");
  EXPECT_EQ(text(object, "absent"), "");
  EXPECT_EQ(text(object, "seq"), "12");
  EXPECT_EQ(text(Json(), "name"), "");
  EXPECT_EQ(length(object, "size_mm"), Length::from_pm(83'010'400'000));
  EXPECT_EQ(length(object, "none"), std::nullopt);
  EXPECT_EQ(count(object, "seq"), 12);
  EXPECT_EQ(count(object, "none"), 0);
}

TEST(Text, OfAnotherKindIsABadAnswer) {
  const Json object = {{"far", 1e300}, {"word", "83"}, {"part", 1.5}, {"list", Json::array()}};
  EXPECT_THROW(length(object, "far"), BadAnswer);
  EXPECT_THROW(length(object, "word"), BadAnswer);
  EXPECT_THROW(count(object, "part"), BadAnswer);
  EXPECT_THROW(count(object, "list"), BadAnswer);
  EXPECT_THROW(texts(object, "part"), Json::exception);
}

TEST(PlaceText, LeavesOutWhatTheFeatureLacks) {
  EXPECT_EQ(place_text({{"feature", "bore"}, {"index", 3}, {"label", "L3"}, {"level", "top"}, {"axis", "pin"}}),
            "bore L3 top pin");
  EXPECT_EQ(place_text({{"feature", "bore"}, {"index", 3}, {"label", nullptr}, {"level", nullptr}}), "bore 3");
  EXPECT_EQ(place_text({{"feature", nullptr}, {"index", nullptr}}), "");
}

TEST(Places, AreTheUsualOnesUntilALengthIsFiner) {
  const auto um = [](std::int64_t tenths) { return Length::from_pm(tenths * 100'000); };
  EXPECT_EQ(places_for({}, Unit::mm), 3);
  EXPECT_EQ(places_for({um(10)}, Unit::mm), 3);
  EXPECT_EQ(places_for({um(10), um(11)}, Unit::mm), 4);
  EXPECT_EQ(places_for({Length::from_pm(10'000)}, Unit::mm), 5);
  EXPECT_EQ(places_for({Length::from_pm(1)}, Unit::mm), 4);
  EXPECT_EQ(places_for({Length::from_pm(2'540'000)}, Unit::in), 4);
  EXPECT_EQ(places_for({Length::from_pm(254'000)}, Unit::in), 5);
  EXPECT_EQ(places_for({Length::from_pm(-25'400)}, Unit::in), 6);
  EXPECT_EQ(places_for({Length::from_mm(83)}, Unit::in), 5);
}

TEST(WithUnit, NamesIt) {
  EXPECT_EQ(with_unit(Length::from_mm(-83), Unit::mm), "-83.000 mm");
  EXPECT_EQ(with_unit(kInch, Unit::in), "1.0000 in");
  EXPECT_EQ(with_unit(std::nullopt, Unit::in), "-");
}

TEST(Age, IsToldInWholeUnits) {
  EXPECT_EQ(age_text(0), "0 s");
  EXPECT_EQ(age_text(119), "119 s");
  EXPECT_EQ(age_text(120), "2 min");
  EXPECT_EQ(age_text(7199), "119 min");
  EXPECT_EQ(age_text(7200), "2 h");
  EXPECT_EQ(age_text(172'800), "2 days");
}

TEST(Columns, CountCharactersNotBytes) {
  EXPECT_EQ(width("kühler"), 6U);
  EXPECT_EQ(left("ü", 3), "ü  ");
  EXPECT_EQ(right("ü", 3), "  ü");
  EXPECT_EQ(right("long", 2), "long");
}

TEST(Wrapped, BreaksAtBlanks) {
  EXPECT_EQ(wrapped("", 4, 4), "\n");
  EXPECT_EQ(wrapped("one two", 4, 4), "one two\n");
  const std::string half(38, 'x');
  EXPECT_EQ(wrapped(half + " " + half, 2, 3), half + " " + half + "\n");
  EXPECT_EQ(wrapped(half + " " + half, 2, 4), half + "\n  " + half + "\n");
  EXPECT_EQ(wrapped(half + " " + half + " " + half, 2, 0), half + " " + half + "\n  " + half + "\n");
  const std::string longer(100, 'x');
  EXPECT_EQ(wrapped("a " + longer + " b", 1, 0), "a\n " + longer + "\n b\n");
  EXPECT_EQ(wrapped("a  b", 0, 0), "a  b\n");
}

TEST(Cut, MarksWhatIsGone) {
  EXPECT_EQ(cut("main", 4), "main");
  EXPECT_EQ(cut("main_bearing", 5), "main~");
  EXPECT_EQ(cut("üüüü", 3), "üü~");
  EXPECT_EQ(width(cut("ünïcödé", 4)), 4U);
  EXPECT_EQ(cut("ab", 1), "~");
}

}  // namespace
}  // namespace tenth::cli
