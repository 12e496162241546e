#include "rules/respec.hpp"

#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::at;
using testing::len;
using testing::limits;
using testing::Workpiece;
using Changes = std::vector<SpecChange>;

Spec small() {
  Workpiece work;
  work.spec.title = "Small";
  Feature& bore = work.feature("bore", Kind::inside, limits("83.000", "83.035"), 2);
  bore.levels = {"top", "bottom"};
  bore.out_of_round = len("0.010");
  work.feature("piston", Kind::outside, limits("82.940", "82.960"), 2);
  work.fit("piston_clearance", "bore", "piston", limits("0.045", "0.075"));
  work.spec.spreads.push_back({"piston", len("0.005"), SpreadBy::means});
  return work.spec;
}

/// The only change from `small` to what `change` makes of it.
template <class Change>
SpecChange only(Change change) {
  Spec after = small();
  change(after);
  const Changes changes = difference(small(), after);
  EXPECT_EQ(changes.size(), 1U);
  return changes.empty() ? SpecChange{} : changes.front();
}

TEST(Difference, OfASpecWithItselfIsNothing) {
  EXPECT_EQ(difference(small(), small()), Changes{});
}

TEST(Difference, NamesTheKeyAndSaysFromWhatToWhat) {
  EXPECT_EQ(only([](Spec& spec) { spec.features[0].limits.upper = len("83.040"); }),
            (SpecChange{"feature", "bore", "limits", "83 mm to 83.035 mm", "83 mm to 83.04 mm"}));
  EXPECT_EQ(only([](Spec& spec) { spec.features[0].out_of_round.reset(); }),
            (SpecChange{"feature", "bore", "out_of_round", "0.01 mm", std::nullopt}));
  EXPECT_EQ(only([](Spec& spec) { spec.fits[0].target = len("0.060"); }),
            (SpecChange{"fit", "piston_clearance", "target", std::nullopt, "0.06 mm"}));
  EXPECT_EQ(only([](Spec& spec) { spec.spreads[0].by = SpreadBy::readings; }),
            (SpecChange{"spread", "piston", "by", "means", "readings"}));
  EXPECT_EQ(only([](Spec& spec) { spec.facts = {{"fuel", "pump"}}; }),
            (SpecChange{"facts", "", "fuel", std::nullopt, "pump"}));
}

TEST(Difference, SeesAPicometre) {
  EXPECT_EQ(
      only([](Spec& spec) { spec.features[0].limits.upper = *spec.features[0].limits.upper + Length::from_pm(1); }).to,
      "83 mm to 83.035000001 mm");
}

TEST(Difference, EveryKeyOfAFeatureIsCompared) {
  const auto key = [](auto change) { return only([&](Spec& spec) { change(spec.features[0]); }).key; };
  EXPECT_EQ(key([](Feature& f) { f.kind = Kind::outside; }), "kind");
  EXPECT_EQ(key([](Feature& f) { f.count_by = CountBy::mains; }), "count");
  EXPECT_EQ(key([](Feature& f) { f.labels = {"L", "R"}; }), "labels");
  EXPECT_EQ(key([](Feature& f) { f.size_text = "83 H7"; }), "size");
  EXPECT_EQ(key([](Feature& f) { f.levels = {"top"}; }), "levels");
  EXPECT_EQ(key([](Feature& f) { f.axes = {"pin"}; }), "axes");
  EXPECT_EQ(key([](Feature& f) { f.taper = len("0.01"); }), "taper");
  EXPECT_EQ(key([](Feature& f) { f.out_of_round_by = OutOfRoundBy::across_levels; }), "out_of_round_by");
  EXPECT_EQ(key([](Feature& f) { f.taper_by = TaperBy::ends; }), "taper_by");
  EXPECT_EQ(key([](Feature& f) { f.shape = Shape::barrel; }), "shape");
  EXPECT_EQ(key([](Feature& f) { f.window = limits("82", "84"); }), "window");
  EXPECT_EQ(key([](Feature& f) { f.repeat = len("0.01"); }), "repeat");
  EXPECT_EQ(key([](Feature& f) { f.where = "plates"; }), "where");
  EXPECT_EQ(key([](Feature& f) { f.fastest = Fastest::level; }), "fastest");
  EXPECT_EQ(key([](Feature& f) { f.presses = 3; }), "presses");
  EXPECT_EQ(key([](Feature& f) { f.material = "grey iron"; }), "material");
  EXPECT_EQ(key([](Feature& f) { f.source = "a letter"; }), "source");
  EXPECT_EQ(key([](Feature& f) { f.before = {"piston"}; }), "before");
}

TEST(Difference, EveryKeyOfAFitAndOfTheLayoutIsCompared) {
  const auto fit = [](auto change) { return only([&](Spec& spec) { change(spec.fits[0]); }).key; };
  EXPECT_EQ(fit([](Fit& f) { f.inside = "liner"; }), "inside");
  EXPECT_EQ(fit([](Fit& f) { f.outside = "slug"; }), "outside");
  EXPECT_EQ(fit([](Fit& f) { f.limits.lower.reset(); }), "limits");
  EXPECT_EQ(fit([](Fit& f) { f.judge = JudgeBy::mean; }), "judge");
  EXPECT_EQ(fit([](Fit& f) { f.inside_levels = {"top"}; }), "inside_levels");
  EXPECT_EQ(fit([](Fit& f) { f.outside_levels = {"top"}; }), "outside_levels");
  EXPECT_EQ(fit([](Fit& f) { f.inside_axes = {"pin"}; }), "inside_axes");
  EXPECT_EQ(fit([](Fit& f) { f.outside_axes = {"pin"}; }), "outside_axes");
  EXPECT_EQ(fit([](Fit& f) { f.seats = {"front"}; }), "seats");
  EXPECT_EQ(fit([](Fit& f) { f.coated = Coated::must; }), "coated");
  EXPECT_EQ(fit([](Fit& f) { f.mix_halves = false; }), "mix_halves");
  EXPECT_EQ(fit([](Fit& f) { f.wall_difference = len("0.01"); }), "wall_difference");
  EXPECT_EQ(fit([](Fit& f) { f.thicker = Half::lower; }), "thicker");
  EXPECT_EQ(fit([](Fit& f) { f.swap = false; }), "swap");
  EXPECT_EQ(fit([](Fit& f) { f.match = true; }), "match");
  const auto layout = [](auto change) { return only([&](Spec& spec) { change(spec.layout); }).key; };
  EXPECT_EQ(layout([](Layout& l) { l.cylinders = 2; }), "cylinders");
  EXPECT_EQ(layout([](Layout& l) { l.mains = 2; }), "mains");
  EXPECT_EQ(layout([](Layout& l) { l.crankpins = 2; }), "crankpins");
  EXPECT_EQ(layout([](Layout& l) { l.viewed_from = "rear"; }), "viewed_from");
  EXPECT_EQ(layout([](Layout& l) { l.labels = {"a"}; }), "labels");
  EXPECT_EQ(layout([](Layout& l) { l.main_labels = {"a"}; }), "main_labels");
  EXPECT_EQ(only([](Spec& spec) { spec.layout.pins = {{"L1", "R1"}, {"L2"}}; }).to, "[L1, R1], [L2]");
  EXPECT_EQ(only([](Spec& spec) { spec.materials["our iron"] = Expansion{10'800'000}; }).to, "10.8");
  EXPECT_EQ(only([](Spec& spec) { spec.title = "Smaller"; }).of, "spec");
}

TEST(Difference, WhatIsNewOrGoneIsOneChange) {
  Spec after = small();
  after.spreads.clear();
  after.features.push_back({});
  after.features.back().name = "ring_gap";
  after.features.back().kind = Kind::gap;
  EXPECT_EQ(difference(small(), after), (Changes{{"feature", "ring_gap", "", std::nullopt, "gap"},
                                                 {"spread", "piston", "", "0.005 mm", std::nullopt}}));
}

TEST(Difference, AnotherUnitAloneChangesNoLimit) {
  const SpecChange change = only([](Spec& spec) { spec.unit = Unit::in; });
  EXPECT_EQ(change, (SpecChange{"spec", "", "unit", "mm", "in"}));
}

TEST(Difference, InchesAreWrittenWhereNinePlacesHoldThem) {
  Spec before = small(), after = small();
  before.unit = after.unit = Unit::in;
  before.features[0].limits = limits("3.2680 in", "4 in");
  after.features[0].limits = limits("3.26805 in", "83 mm");
  EXPECT_EQ(difference(before, after).front().from, "3.268 in to 4 in");
  EXPECT_EQ(difference(before, after).front().to, "3.26805 in to 83 mm");  // 83/25.4 has no end
}

/// An engine of `small` with one reading at a place.
Engine engine_with(const std::string& place, State state = State::kept, std::int64_t stage_entry = 0) {
  Engine engine;
  engine.spec = std::make_shared<const Spec>(small());
  Reading reading;
  reading.place = at(place);
  reading.state = state;
  reading.stage_entry = stage_entry;
  engine.readings.push_back(reading);
  return engine;
}

TEST(Vanishing, NothingWhereEveryPlaceStays) {
  Spec after = small();
  after.features[0].levels = {"top", "middle", "bottom"};
  after.features[0].labels = {"1", "2", "3"};
  after.features[0].limits = limits("84", "85");
  after.features.erase(after.features.begin() + 1);  // nothing was measured there
  EXPECT_TRUE(vanishing(engine_with("bore/2/bottom"), after).empty());
  EXPECT_TRUE(vanishing(engine_with("bore/2/bottom"), small()).empty());
}

TEST(Vanishing, AFeatureAnIndexALevelOrAnAxisThatGoes) {
  const auto gone = [](const std::string& place, auto change) {
    Spec after = small();
    change(after.features[0]);
    return vanishing(engine_with(place), after);
  };
  const std::vector<Place> top = {at("bore/2/top")};
  EXPECT_EQ(gone("bore/2/top", [](Feature& f) { f.name = "liner"; }), top);
  EXPECT_EQ(gone("bore/2/top", [](Feature& f) { f.labels = {"1"}; }), top);
  EXPECT_EQ(gone("bore/2/top", [](Feature& f) { f.levels = {"bottom"}; }), top);
  EXPECT_EQ(gone("bore/2/top", [](Feature& f) { f.levels.clear(); }), top);
  EXPECT_EQ(gone("bore/2/top", [](Feature& f) { f.axes = {"pin"}; }), top);  // which axis would it be?
  EXPECT_EQ(gone("bore/2/top", [](Feature& f) { f.kind = Kind::outside; }), top);
}

TEST(Vanishing, ReadingsOfAnyStateAndStageHoldTheirPlace) {
  Spec after = small();
  after.features[0].labels = {"1"};
  for (const State state : {State::kept, State::suspect, State::voided})
    EXPECT_EQ(vanishing(engine_with("bore/2/top", state, 7), after).size(), 1U);
}

TEST(Vanishing, AnAnswerHoldsItsCheck) {
  Spec before = small();
  before.features.push_back({});
  before.features.back().name = "oil_ways_clear";
  before.features.back().kind = Kind::check;
  Engine engine;
  engine.spec = std::make_shared<const Spec>(before);
  EXPECT_TRUE(vanishing(engine, small()).empty());
  engine.answers[{"oil_ways_clear", 1}] = {};
  EXPECT_EQ(vanishing(engine, small()), std::vector<Place>{at("oil_ways_clear/1")});
}

TEST(HasPlace, OnlyWholePlacesOfTheSpec) {
  const Spec spec = small();
  EXPECT_TRUE(has_place(spec, at("bore/2/top")));
  EXPECT_TRUE(has_place(spec, at("piston/1")));
  for (const char* no :
       {"bore/1", "bore/0/top", "bore/3/top", "bore/1/middle", "bore/1/top/pin", "piston/1/top", "liner/1"})
    EXPECT_FALSE(has_place(spec, at(no))) << no;
}

}  // namespace
}  // namespace tenth
