#include <gtest/gtest.h>

#include "schema/spec/spec_file.hpp"

namespace tenth {
namespace {

/// What is said of a wrong spec: "LINE:COLUMN: what is wrong -> what to do".
std::string said(const std::string& text) {
  const auto spec = parse_spec(text, "engine.toml");
  if (spec) return "accepted";
  EXPECT_EQ(spec.error().exit, Exit::refused);
  EXPECT_EQ(spec.error().code, "spec");
  EXPECT_EQ(spec.error().message.find('\n'), std::string::npos);
  EXPECT_FALSE(spec.error().remedy.empty());
  EXPECT_TRUE(spec.error().message.starts_with("engine.toml:")) << spec.error().message;
  return spec.error().message.substr(12) + " -> " + spec.error().remedy;
}

#define EXPECT_SAID(text, where, what)                      \
  EXPECT_TRUE(said(text).starts_with(where)) << said(text); \
  EXPECT_NE(said(text).find(what), std::string::npos) << said(text)

/// A right spec; line 11 is added to the bore, line 19 to the fit, and what follows to the end.
std::string with(const std::string& bore, const std::string& fit = "", const std::string& after = "") {
  return R"(unit = "mm"
[layout]
cylinders = 4
mains = 5
crankpins = 2
[feature.bore]
kind = "inside"
count = "cylinders"
levels = ["top", "bottom"]
axes = ["thrust", "pin"]
)" + bore +
         R"(
[feature.piston]
kind = "outside"
count = "cylinders"
limits = [82.90, 82.95]
[fit.clearance]
inside = "bore"
outside = "piston"
)" + fit +
         "\n" + after;
}

TEST(SpecErrors, TheBaseIsRight) {
  EXPECT_EQ(said(with("limits = [83, 83.035]")), "accepted");
}

TEST(SpecErrors, MalformedToml) {
  EXPECT_SAID("title = ", "1:9: ", "end-of-file");
  EXPECT_SAID("title = \"a\"\ntitle = \"b\"", "2:9: ", "redefine");
  EXPECT_SAID("\n\n[feature.bore", "3:14: ", "end-of-file");
  EXPECT_SAID("a = \xFF", "1:", "utf-8");
  EXPECT_SAID("x = 83.010 mm", "1:12: ", "saw 'm'");
  EXPECT_SAID(std::string(1024 * 1024 + 1, '#'), "1:1: ", "larger than 1 MiB");
}

TEST(SpecErrors, NothingAsked) {
  EXPECT_SAID("", "1:1: ", "needs a feature");
  EXPECT_SAID("title = \"x\"", "1:1: ", "needs a feature -> write [feature.NAME]");
}

TEST(SpecErrors, UnknownKeysOfferTheNearest) {
  EXPECT_SAID("titel = \"x\"", "1:1: ", "no key 'titel' -> did you mean title?");
  EXPECT_SAID("[features.bore]", "1:2: ", "did you mean feature?");
  EXPECT_SAID("[layout]\ncylinder = 4", "2:1: ", "[layout] has no key 'cylinder' -> did you mean cylinders?");
  EXPECT_SAID(with("tapper = 0.01"), "11:1: ", "[feature.bore] has no key 'tapper' -> did you mean taper?");
  EXPECT_SAID(with("", "judged = \"mean\""), "19:1: ", "[fit.clearance] has no key 'judged' -> did you mean judge?");
  EXPECT_SAID(with("", "", "[spread.bore]\nlimits = 0.1"), "21:1: ", "did you mean limit?");
  EXPECT_SAID("[material.iron]\nexpanson = 11", "2:1: ", "did you mean expansion?");
}

TEST(SpecErrors, WhatRemediesKeepTo) {
  EXPECT_SAID(with("coated = true"), "11:1: ", "has no key");
  EXPECT_SAID(with("", "coated = true"), "19:10: ", "coated cannot be this -> choose from: must, may, never");
  EXPECT_SAID(with("", "thicker = \"either\""), "19:11: ", "thicker cannot be 'either' -> choose from: upper, lower");
  EXPECT_SAID(with("", "wall_difference = -0.01"), "19:19: ", "wall_difference is below zero");
  for (const std::string key : {"mix_halves", "swap", "match"}) {
    EXPECT_SAID(with("", key + " = \"no\""), "19:", key + " is neither true nor false -> write true or false, without");
  }
}

TEST(SpecErrors, WrongKindsOfValue) {
  EXPECT_SAID("title = 3", "1:9: ", "title is text");
  EXPECT_SAID("feature = 3", "1:11: ", "feature is no table");
  EXPECT_SAID("[feature]\nbore = 3", "2:1: ", "[feature.bore] is no table");
  EXPECT_SAID("[[feature.bore]]\nkind = 'gap'", "1:11: ", "is no table");
  EXPECT_SAID("layout = []", "1:10: ", "layout is no table");
  EXPECT_SAID("[facts]\nyear = 1968", "2:8: ", "[facts] 'year' is text");
  EXPECT_SAID("unit = \"cm\"", "1:8: ", "unit cannot be 'cm' -> choose from: mm, in");
  EXPECT_SAID("[layout]\ncylinders = \"six\"", "2:13: ", "no whole number from 1 to 200");
  EXPECT_SAID("[layout]\nmains = 0", "2:9: ", "no whole number");
  EXPECT_SAID("[layout]\nmains = 7.0", "2:9: ", "no whole number");
  EXPECT_SAID("[layout]\nmains = 100000000000", "2:9: ", "no whole number");
  EXPECT_SAID(with("where = 5"), "11:9: ", "where is text");
  EXPECT_SAID(with("presses = 0"), "11:11: ", "presses is no whole number from 1");
  EXPECT_SAID(with("taper_by = \"end\""), "11:12: ", "taper_by cannot be 'end' -> did you mean ends?");
  EXPECT_SAID(with("shape = \"barrel\""), "11:9: ", "shape wants at least 3 levels");
  EXPECT_SAID(with("shape = \"round\""), "11:9: ", "shape cannot be 'round'");
  EXPECT_SAID(with("out_of_round_by = 1"), "11:19: ", "out_of_round_by cannot be this");
  EXPECT_SAID(with("fastest = \"levels\""), "11:11: ", "did you mean level?");
  EXPECT_SAID(with("", "judge = \"extreme\""), "19:9: ", "did you mean extremes?");
  EXPECT_SAID(with("", "", "[spread.bore]\nlimit = 0.1\nby = \"mean\""), "22:6: ", "did you mean means?");
}

TEST(SpecErrors, Lengths) {
  EXPECT_SAID(with("taper = true"), "11:9: ", "[feature.bore] taper: this is no length");
  EXPECT_SAID(with("taper = \"0.01 cm\""), "11:9: ", "'0.01 cm' is no length -> write a number and a unit");
  EXPECT_SAID(with("taper = 0x10"), "11:9: ", "'0x10' is no decimal number");
  EXPECT_SAID(with("taper = inf"), "11:9: ", "'inf' is no decimal number");
  EXPECT_SAID(with("taper = 0.0000000001"), "11:9: ", "finer than a picometre");
  EXPECT_SAID(with("max = 100001"), "11:7: ", "beyond 100 m");
  EXPECT_SAID(with("taper = -0.01"), "11:9: ", "taper is below zero");
  EXPECT_SAID(with("repeat = -0.01"), "11:10: ", "repeat is below zero");
  EXPECT_SAID("[feature.bore]\nkind = \"inside\"\nmax = 83", "3:7: ", "unit of this number is not known -> write unit");
  EXPECT_SAID("[feature.bore]\nkind = \"inside\"\nmax = \"83\"", "3:7: ", "'83' has no unit");
}

TEST(SpecErrors, ImpossibleLimits) {
  EXPECT_SAID(with("limits = [83.035, 83]"), "11:10: ", "the lower limit 83.035 mm is above the upper 83 mm");
  EXPECT_SAID(with("min = 83.1\nmax = 83"), "11:7: ", "min 83.1 mm is above max 83 mm");
  EXPECT_SAID(with("limits = [83]"), "11:10: ", "limits is no pair of lengths -> write [lower, upper]");
  EXPECT_SAID(with("limits = 83"), "11:10: ", "no pair");
  EXPECT_SAID(with("limits = [83, \"x\"]"), "11:15: ", "'x' is no length");
  EXPECT_SAID(with("limits = [83, 84]\nmax = 84"), "11:10: ", "has limits twice");
  EXPECT_SAID(with("size = \"83 H7\"\nmax = 84"), "11:8: ", "both size and limits");
  EXPECT_SAID(with("limits = [-0.01, 0.02]"), "11:10: ", "below zero");
  EXPECT_SAID(with("max = -0.02"), "11:7: ", "below zero");
  EXPECT_SAID(with("", "limits = [0.06, 0.05]"), "19:10: ", "above the upper");
}

TEST(SpecErrors, Classes) {
  EXPECT_SAID(with("size = \"83 Q7\""), "11:8: ", "not known");
  EXPECT_SAID(with("size = \"83.000\""), "11:8: ", "is no ISO 286 class -> write a size in mm and a class");
  EXPECT_SAID(with("size = 83"), "11:8: ", "size is text");
  EXPECT_SAID(with("size = \"83 h7\""), "11:8: ", "'83 h7' is for shafts, and the kind is inside");
  EXPECT_SAID("[feature.pin]\nkind = 'outside'\nsize = '22 H5'", "3:8: ", "is for holes, and the kind is outside");
}

TEST(SpecErrors, AFormThatThePlacesCannotShow) {
  const std::string lone = "unit = \"mm\"\n[feature.pin]\nkind = 'outside'\nlimits = [22, 22.01]\n";
  EXPECT_SAID(lone + "out_of_round = 0.005",
              "5:16: ", "out_of_round wants at least 2 axes to be measured -> name them");
  EXPECT_SAID(lone + "taper = 0.005", "5:9: ", "taper wants at least 2 levels to be measured -> name them");
  EXPECT_SAID(lone + "levels = ['a', 'b']\naxes = ['x']\nout_of_round = 0.005", "7:16: ", "at least 2 axes");
  EXPECT_SAID(lone + "levels = ['a']\naxes = ['x', 'y']\ntaper = 0.005", "7:9: ", "at least 2 levels");
  EXPECT_SAID(lone + "levels = ['a', 'b']\nout_of_round_by = 'across_levels'\nout_of_round = 0.005",
              "7:16: ", "at least 2 axes");
  EXPECT_EQ(said(lone + "axes = ['x', 'y']\nout_of_round = 0.005"), "accepted");
  EXPECT_EQ(said(lone + "levels = ['a', 'b']\ntaper = 0.005"), "accepted");
}

TEST(SpecErrors, FormAndWindow) {
  EXPECT_SAID(with("limits = [83, 83.02]\ntaper = 0.021"),
              "12:9: ", "taper 0.021 mm is wider than the limits of size (0.02 mm)");
  EXPECT_SAID(with("size = \"83 H7\"\nout_of_round = 0.036"), "12:16: ", "out_of_round 0.036 mm is wider");
  EXPECT_EQ(said(with("size = \"83 H7\"\nout_of_round = 0.035")), "accepted");
  EXPECT_SAID(with("window = [83.5, 82.5]"), "11:10: ", "above the upper");
  EXPECT_SAID(with("limits = [83, 83.02]\nwindow = [83.001, 84]"), "12:10: ", "window does not hold the limits");
  EXPECT_SAID(with("max = 83\nwindow = [82, 82.9]"), "12:10: ", "window does not hold the limits");
}

TEST(SpecErrors, Kinds) {
  EXPECT_SAID("[feature.bore]\nsize = '83 H7'", "1:1: ", "[feature.bore] needs kind");
  EXPECT_SAID("[feature.bore]\nkind = 'insde'", "2:8: ", "kind cannot be 'insde' -> did you mean inside?");
  EXPECT_SAID("[feature.q]\nkind = 'check'\nlimits = ['1 mm', '2 mm']", "3:10: ", "is a check and has no limits");
  EXPECT_SAID("[feature.q]\nkind = 'check'\naxes = ['x']", "3:8: ", "is a check and has no axes");
  EXPECT_SAID("[feature.q]\nkind = 'check'\nbefore = ['bore']\n[feature.bor]\nkind = 'gap'",
              "3:11: ", "no feature 'bore' -> did you mean bor?");
  EXPECT_SAID("[feature.q]\nkind = 'check'\nbefore = ['q']", "3:11: ", "there is no size at the check 'q'");
  EXPECT_SAID(with("before = [\"piston\"]"), "11:10: ", "before is for checks only");
}

TEST(SpecErrors, NamesAndLabels) {
  EXPECT_SAID("[feature.'big bore']\nkind = 'gap'", "1:1: ", "[feature.'big bore'] cannot be typed as one word");
  EXPECT_SAID("[feature.\"a/b\"]\nkind = 'gap'", "1:1: ", "cannot be typed as one word");
  EXPECT_SAID("[feature.\"a\\nb\"]\nkind = 'gap'", "1:1: ", "'a\\x0Ab'");
  EXPECT_SAID("[layout]\ncylinders = 2\nlabels = [\"1\", \"1\"]", "3:16: ", "'1' stands there twice");
  EXPECT_SAID("[layout]\ncylinders = 2\nlabels = [\"1\", \"a b\"]", "3:16: ", "'a b' cannot be typed as one word");
  EXPECT_SAID("[layout]\ncylinders = 2\nlabels = [\"1\", \"\"]", "3:16: ", "cannot be typed");
  EXPECT_SAID("[layout]\ncylinders = 2\nlabels = [1, 2]", "3:11: ", "a name is text -> put it in quotes");
  EXPECT_SAID("[layout]\ncylinders = 2\nlabels = \"12\"", "3:10: ", "no list of names");
  EXPECT_SAID("[layout]\ncylinders = 2\nlabels = [\"1\"]", "3:10: ", "labels names 1 of 2 cylinders");
  EXPECT_SAID("[layout]\nmain_labels = [\"1\"]", "2:15: ", "main_labels names 1 of 0 mains");
  EXPECT_SAID(with("labels = [\"1\", \"2\", \"3\"]"), "11:10: ", "labels names 3 of 4");
  EXPECT_SAID(with("labels = [\"1\", \"2\", \"3\", \"top\"]"), "9:10: ", "'top' is also the name of another");
  EXPECT_SAID("[feature.b]\nkind = 'gap'\nlevels = []", "3:10: ", "is empty");
  EXPECT_SAID("[feature.b]\nkind = 'gap'\nlevels = ['x']\naxes = ['y', 'x']", "4:8: ", "'x' is also the name");
  EXPECT_SAID("[feature.b]\nkind = 'gap'\ncount = 'cylinders'",
              "3:9: ", "counted by cylinders, and [layout] does not say");
  EXPECT_SAID("[feature.b]\nkind = 'gap'\ncount = 'cylinder'", "3:9: ", "did you mean cylinders?");
  EXPECT_SAID("[feature.b]\nkind = 'gap'\ncount = 1.5", "3:9: ", "no whole number from 1 to 200");
}

TEST(SpecErrors, Fits) {
  EXPECT_SAID("[feature.b]\nkind = 'gap'\n[fit.f]\ninside = 'b'", "3:1: ", "[fit.f] needs outside");
  EXPECT_SAID("[feature.b]\nkind = 'gap'\n[fit.f]\ninside = 'b'\noutside = 'c'", "5:11: ", "there is no feature 'c'");
  EXPECT_SAID("[feature.b]\nkind = 'gap'\n[fit.f]\ninside = 'b'\noutside = 'b'", "5:11: ", "fits 'b' to itself");
  EXPECT_SAID("[feature.b]\nkind = 'inside'\n[feature.p]\nkind = 'outside'\n[fit.f]\ninside = 'p'\noutside = 'b'",
              "6:10: ", "'p' is of kind outside");
  EXPECT_SAID("[feature.b]\nkind = 'inside'\n[feature.q]\nkind = 'check'\n[fit.f]\ninside = 'b'\noutside = 'q'",
              "7:11: ", "no size at the check 'q'");
  EXPECT_SAID(with("", "inside_levels = [\"midle\"]"), "19:18: ", "bore has no 'midle'");
  EXPECT_SAID(with("", "inside_levels = [\"top\", \"botom\"]"), "19:25: ", "did you mean bottom?");
  EXPECT_SAID(with("", "outside_axes = [\"pin\"]"), "19:17: ", "piston has no 'pin' -> there are none");
  EXPECT_SAID(with("", "limits = [0.05, 0.06]\ntarget = 0.07"),
              "20:10: ", "target 0.07 mm is outside the limits of the fit");
  EXPECT_SAID(with("", "max = 0.06\ntarget = 0.07"), "20:10: ", "outside the limits of the fit");
  EXPECT_SAID(with("", "", "[fit.'a b']\ninside='bore'\noutside='piston'"), "20:1: ", "cannot be typed as one word");
}

TEST(SpecErrors, FitsThatCanNeverBeReached) {
  EXPECT_SAID(with("limits = [83, 83.02]", "limits = [0.01, 0.04]"),
              "19:10: ", "can never be reached: within their limits bore and piston give 0.05 mm or more");
  EXPECT_SAID(with("limits = [83, 83.02]", "max = 0.04"), "19:7: ", "0.05 mm or more");
  EXPECT_SAID(with("limits = [83, 83.02]", "min = 0.13"), "19:7: ", "0.12 mm or less");
  EXPECT_EQ(said(with("limits = [83, 83.02]", "limits = [0.12, 0.2]")), "accepted");
  EXPECT_EQ(said(with("limits = [83, 83.02]", "limits = [0.01, 0.05]")), "accepted");
  EXPECT_EQ(said(with("min = 83", "limits = [0.2, 0.3]")), "accepted");
}

TEST(SpecErrors, Couples) {
  EXPECT_SAID("[feature.b]\nkind='inside'\ncount=2\n[feature.p]\nkind='outside'\n[fit.f]\ninside='b'\noutside='p'",
              "7:8: ", "cannot couple 2 b with 1 p");
  const std::string rods =
      "[feature.rod]\nkind='inside'\ncount='cylinders'\n[feature.pin]\nkind='outside'\ncount='crankpins'\nlevels=['"
      "front','rear','x']\n[fit.f]\ninside='rod'\noutside='pin'\n";
  const std::string layout = "[layout]\ncylinders=4\ncrankpins=2\n", pins = "pins=[['1','2'],['3','4']]\n";
  EXPECT_SAID(layout + rods, "12:8: ", "cannot couple 4 rod with 2 pin");
  EXPECT_SAID(layout + rods, "12:8: ", "need pins in [layout]");
  EXPECT_EQ(said(layout + pins + rods), "accepted");
  EXPECT_SAID(layout + pins + rods + "seats=['front']", "15:7: ", "seats names 1 seats for 2 rods");
  EXPECT_SAID(layout + pins + rods + "seats=['front','rear','x']", "15:7: ", "for 2 rods on a pin");
  EXPECT_SAID(layout + pins + rods + "seats=['front','back']", "15:16: ", "pin has no 'back'");
  EXPECT_SAID(layout + pins + rods + "seats=['front','rear']\noutside_levels=['x']",
              "16:16: ", "both seats and outside_levels");
  EXPECT_SAID(with("", "seats = [\"top\"]"), "19:10: ", "piston has no 'top'");
  EXPECT_SAID(
      "[feature.b]\nkind='inside'\n[feature.p]\nkind='outside'\nlevels=['x']\n[fit.f]\ninside='b'\noutside='p'\nseats=["
      "'x']",
      "9:7: ", "seats are for rods that share crankpins");
}

TEST(SpecErrors, Pins) {
  const std::string layout = "[layout]\ncylinders = 4\ncrankpins = 2\npins = ";
  EXPECT_SAID(layout + "1", "4:8: ", "pins is no list");
  EXPECT_SAID(layout + "[1]", "4:9: ", "no list of names");
  EXPECT_SAID(layout + "[['1', '2'], ['3', '5']]", "4:27: ", "no cylinder has the label '5'");
  EXPECT_SAID(layout + "[['1', '2'], ['3', '1']]", "4:27: ", "'1' is on two crankpins");
  EXPECT_SAID(layout + "[['1', '2'], ['3']]", "4:8: ", "cylinder '4' is on no crankpin");
  EXPECT_SAID(layout + "[['1', '2', '3', '4']]", "4:8: ", "pins has 1 lists for 2 crankpins");
}

TEST(SpecErrors, SpreadsAndMaterials) {
  EXPECT_SAID(with("", "", "[spread.bor]\nlimit = 0.1"), "20:1: ", "no feature 'bor' -> did you mean bore?");
  EXPECT_SAID(with("", "", "[spread.bore]"), "20:1: ", "[spread.bore] needs limit");
  EXPECT_SAID(with("", "", "[spread.bore]\nlimit = -0.1"), "21:9: ", "below zero");
  EXPECT_SAID("[material.iron]", "1:1: ", "needs expansion");
  EXPECT_SAID("[material.iron]\nexpansion = \"11\"", "2:13: ", "a number in 1e-6/K");
  EXPECT_SAID("[material.iron]\nexpansion = -1", "2:13: ", "a number in 1e-6/K");
  EXPECT_SAID("[material.iron]\nexpansion = nan", "2:13: ", "a number in 1e-6/K");
}

TEST(SpecErrors, MorePlacesThanAnyEngineHas) {
  std::string names = "'0'";
  for (int i = 300; i < 700; ++i) names += ",'" + std::to_string(i) + "'";
  EXPECT_SAID("[feature.b]\nkind='gap'\nlevels=[" + names + "]\naxes=['x','y','z']\ncount=200",
              "1:1: ", "more than 100000 places");
}

}  // namespace
}  // namespace tenth
