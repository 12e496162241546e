#include "rules/place.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <set>

namespace tenth {
namespace {

using Words = std::vector<std::string>;

Feature feature(const std::string& name, Words labels, Words levels, Words axes) {
  Feature made;
  made.name = name;
  made.labels = std::move(labels);
  made.levels = std::move(levels);
  made.axes = std::move(axes);
  return made;
}

/// An engine of our own invention: cylinders in two banks, one lone cam bore, and a question.
Spec demo() {
  Spec spec;
  spec.features = {feature("bore", {"L1", "R1", "L2", "R2"}, {"top", "bottom"}, {"thrust", "pin"}),
                   feature("main_bearing", {"1", "2", "3"}, {}, {"vertical", "oblique"}),
                   feature("main_journal", {"1", "2", "3"}, {"front", "rear"}, {}),
                   feature("cam_bore", {"1"}, {"front", "middle"}, {"x", "y"}),
                   feature("oil_feed_clear", {"1"}, {}, {})};
  spec.features.back().kind = Kind::check;
  return spec;
}

const Spec kSpec = demo();

std::string found(const Words& words) {
  const auto place = find_place(kSpec, words);
  return place ? slashed(*place, kSpec)
               : place.error().code + ": " + place.error().message + "; " + place.error().remedy;
}

TEST(FindPlace, TakesFeatureIndexLevelAxis) {
  EXPECT_EQ(found({"bore", "L2", "top", "thrust"}), "bore/L2/top/thrust");
  EXPECT_EQ(found({"main_bearing", "1", "vertical"}), "main_bearing/1/vertical");
  EXPECT_EQ(found({"main_journal", "3", "rear"}), "main_journal/3/rear");
  EXPECT_EQ(found({"oil_feed_clear"}), "oil_feed_clear/1");
}

TEST(FindPlace, AnIndexIsAPositionInTheOrderOfTheLabels) {
  EXPECT_EQ(find_place(kSpec, Words{"bore", "L2", "top", "thrust"}).value(), (Place{"bore", 3, "top", "thrust"}));
  Spec crossed = kSpec;
  crossed.features[1].labels = {"2", "1", "3"};
  EXPECT_EQ(find_place(crossed, Words{"main_bearing/2/vertical"}).value().index, 1);
}

TEST(FindPlace, AUniqueBeginningWillDo) {
  EXPECT_EQ(found({"b", "L2", "t", "p"}), "bore/L2/top/pin");
  EXPECT_EQ(found({"main_j", "2", "f"}), "main_journal/2/front");
}

TEST(FindPlace, OneIndexMayBeLeftOut) {
  EXPECT_EQ(found({"cam", "front", "x"}), "cam_bore/1/front/x");
  EXPECT_EQ(found({"cam", "1", "front", "x"}), "cam_bore/1/front/x");
  EXPECT_EQ(found({"oil", "1"}), "oil_feed_clear/1");
  EXPECT_EQ(found({"cam", "1", "front"}), "missing_axis: cam_bore needs an axis; add one of: x, y");
}

TEST(FindPlace, TakesTheSlashForm) {
  EXPECT_EQ(found({"bore/L2/top/thrust"}), "bore/L2/top/thrust");
  EXPECT_EQ(found({"main_b/2/obl"}), "main_bearing/2/oblique");
  EXPECT_EQ(found({"cam/middle/y"}), "cam_bore/1/middle/y");
  EXPECT_EQ(found({"bore/L2//thrust"}), "unknown_level: no level '' of bore; choose from: top, bottom");
}

TEST(FindPlace, OffersTheNearestRightWord) {
  EXPECT_EQ(found({"bpre", "L1"}).substr(0, 60), "unknown_feature: no feature 'bpre'; did you mean bore? choos");
  EXPECT_EQ(found({"bore", "L2", "botom", "pin"}),
            "unknown_level: no level 'botom' of bore; did you mean bottom? choose from: top, bottom");
  EXPECT_EQ(found({"main_bearing", "1", "verticla"}),
            "unknown_axis: no axis 'verticla' of main_bearing; did you mean vertical? choose from: vertical, oblique");
  EXPECT_EQ(found({"main_bearing", "9", "vertical"}),
            "unknown_index: no index '9' of main_bearing; choose from: 1, 2, 3");
}

TEST(FindPlace, SaysWhatIsMissing) {
  EXPECT_EQ(found({}).substr(0, 16), "missing_feature:");
  EXPECT_EQ(found({"bore"}), "missing_index: bore needs an index; add one of: L1, R1, L2, R2");
  EXPECT_EQ(found({"bore", "L1"}), "missing_level: bore needs a level; add one of: top, bottom");
  EXPECT_EQ(found({"bore", "L1", "top"}), "missing_axis: bore needs an axis; add one of: thrust, pin");
}

TEST(FindPlace, RefusesWhatIsAmbiguousOrTooMuch) {
  EXPECT_EQ(found({"main", "1"}),
            "ambiguous_feature: 'main' may be main_bearing, main_journal; write more of the feature");
  EXPECT_EQ(found({"bore", "L", "top", "pin"}), "ambiguous_index: 'L' may be L1, L2; write more of the index");
  EXPECT_EQ(found({"main_bearing", "1", "vertical", "top"}),
            "too_many_words: 'top' is one word too many: main_bearing/1/vertical is a whole place; leave it out");
}

TEST(FindPlace, IsRefusedNotMisworded) {
  for (const Words& words : {Words{"x"}, Words{"bore"}, Words{"main", "1"}, Words{"bore", "L1", "top", "pin", "pin"}})
    EXPECT_EQ(find_place(kSpec, words).error().exit, Exit::refused);
}

TEST(Spoken, UsesLabelsAndLeavesOutALoneIndex) {
  EXPECT_EQ(spoken({"bore", 3, "top", "thrust"}, kSpec), "bore L2 top thrust");
  EXPECT_EQ(spoken({"cam_bore", 1, "front", "x"}, kSpec), "cam_bore front x");
  EXPECT_EQ(spoken({"oil_feed_clear", 1, "", ""}, kSpec), "oil_feed_clear");
  EXPECT_EQ(spoken({"bore", 7, "top", ""}, kSpec), "bore 7 top");  // an index that a later spec has not
  EXPECT_EQ(spoken({"gone", 2, "", ""}, kSpec), "gone 2");
}

TEST(Slashed, UsesLabelsAndGivesALoneIndex) {
  EXPECT_EQ(slashed({"bore", 3, "top", "thrust"}, kSpec), "bore/L2/top/thrust");
  EXPECT_EQ(slashed({"cam_bore", 1, "front", "x"}, kSpec), "cam_bore/1/front/x");
  EXPECT_EQ(slashed({"bore", 7, "top", ""}, kSpec), "bore/7/top");  // an index that a later spec has not
  EXPECT_EQ(slashed({"gone", 2, "", ""}, kSpec), "gone/2");
}

TEST(PlacesOf, RunAxisFastestUnlessTurned) {
  Feature bore = *kSpec.find("bore");
  EXPECT_EQ(places_of(bore, 2), (std::vector<Place>{{"bore", 2, "top", "thrust"},
                                                    {"bore", 2, "top", "pin"},
                                                    {"bore", 2, "bottom", "thrust"},
                                                    {"bore", 2, "bottom", "pin"}}));
  bore.fastest = Fastest::level;
  EXPECT_EQ(places_of(bore, 2)[1], (Place{"bore", 2, "bottom", "thrust"}));
  EXPECT_EQ(places_of(*kSpec.find("oil_feed_clear"), 1), (std::vector<Place>{{"oil_feed_clear", 1, "", ""}}));
}

Words walked(const RoundAsk& ask) {
  Words words;
  const auto order = round_order(kSpec, ask).value();
  for (const auto& place : order) words.push_back(slashed(place, kSpec));
  return words;
}

TEST(RoundOrder, TakesFeaturesAsNamed) {
  const Words both = walked({{"main_j", "main_b"}, RoundBy::feature, "", false});
  EXPECT_EQ(both.front(), "main_journal/1/front");
  EXPECT_EQ(both.at(6), "main_bearing/1/vertical");
  EXPECT_EQ(walked({}).front(), "bore/L1/top/thrust");
  EXPECT_EQ(walked({}).back(), "oil_feed_clear/1");
  EXPECT_EQ(walked({}).size(), 16U + 6 + 6 + 4 + 1);
}

TEST(RoundOrder, ByIndexTakesAllOfOneFirst) {
  const Words walk = walked({{"main_b", "main_j"}, RoundBy::index, "", false});
  EXPECT_EQ(walk.at(0), "main_bearing/1/vertical");
  EXPECT_EQ(walk.at(2), "main_journal/1/front");
  EXPECT_EQ(walk.at(4), "main_bearing/2/vertical");
  EXPECT_EQ(walk.size(), 12U);
  EXPECT_EQ(walked({{"cam", "main_j"}, RoundBy::index, "", false}).back(), "main_journal/3/rear");  // unequal counts
}

TEST(RoundOrder, BeginsAtTheIndexAsked) {
  EXPECT_EQ(walked({{"bore"}, RoundBy::feature, "L2", false}).front(), "bore/L2/top/thrust");
  EXPECT_EQ(
      walked({{"main_j", "main_b"}, RoundBy::index, "3", false}),
      (Words{"main_journal/3/front", "main_journal/3/rear", "main_bearing/3/vertical", "main_bearing/3/oblique"}));
  EXPECT_EQ(walked({{"main_j", "main_b"}, RoundBy::feature, "3", false}).size(), 2U + 6);
}

TEST(RoundOrder, RefusesUnknownWords) {
  EXPECT_EQ(round_order(kSpec, {{"bores"}, RoundBy::feature, "", false}).error().code, "unknown_feature");
  EXPECT_EQ(round_order(kSpec, {{"bore"}, RoundBy::feature, "9", false}).error().code, "unknown_index");
}

TEST(RoundOrder, NamingAFeatureTwiceWalksItOnce) {
  EXPECT_EQ(walked({{"bore", "bor"}, RoundBy::feature, "", false}).size(), 16U);
}

TEST(Spec, FindsAndNames) {
  EXPECT_EQ(kSpec.find("bore")->count(), 4);
  EXPECT_EQ(kSpec.find("bor"), nullptr);
  EXPECT_EQ(name(Kind::check), "check");
  EXPECT_EQ(name(OutOfRoundBy::across_levels), "across_levels");
  EXPECT_EQ(name(TaperBy::level_means), "level_means");
}

Words split(const std::string& words) {
  Words parts;
  for (std::size_t from = 0; from <= words.size();) {
    const std::size_t blank = std::min(words.find(' ', from), words.size());
    parts.push_back(words.substr(from, blank - from));
    from = blank + 1;
  }
  return parts;
}

/// The demo with labels that say nothing of the position, or the wrong thing: numbers in another order, a lone "2".
Spec drawn_labels() {
  Spec spec = demo();
  for (Feature& each : spec.features) {
    const auto numbers = *rc::gen::unique<Words>(
        each.labels.size(), rc::gen::map(rc::gen::inRange(1, 13), [](int number) { return std::to_string(number); }));
    each.labels = *rc::gen::element(each.labels, numbers);
  }
  return spec;
}

RC_GTEST_PROP(PlaceProperty, EveryPlaceIsFoundByWhatIsPrinted, ()) {
  const Spec spec = drawn_labels();
  const auto all = round_order(spec, {}).value();
  const Place place = *rc::gen::elementOf(all);
  RC_ASSERT(find_place(spec, split(spoken(place, spec))).value() == place);
  RC_ASSERT(find_place(spec, Words{slashed(place, spec)}).value() == place);
}

RC_GTEST_PROP(PlaceProperty, EveryOrderWalksEveryPlaceOnce, ()) {
  auto spec = kSpec;
  for (auto& f : spec.features) f.fastest = *rc::gen::element(Fastest::axis, Fastest::level);
  const auto order = round_order(spec, {{}, *rc::gen::element(RoundBy::feature, RoundBy::index), "", false}).value();
  const auto plain = round_order(kSpec, {}).value();
  RC_ASSERT(std::set(order.begin(), order.end()) == std::set(plain.begin(), plain.end()));
  RC_ASSERT(order.size() == plain.size());
}

}  // namespace
}  // namespace tenth
