#pragma once

namespace tenth {

/// An engine of our own invention, with every key of the format.
inline constexpr auto kWhole = R"(title = "Demo: inline six, 2.6 litre"
unit = "mm"
[layout]
cylinders = 6
mains = 7
crankpins = 6
viewed_from = "front"
labels = ["1", "2", "3", "4", "5", "6"]
main_labels = ["A", "B", "C", "D", "E", "F", "G"]
[facts]
use = "endurance, naturally aspirated"
fuel = "pump"
[material."our iron"]
expansion = 10.80
[feature.piston]
count = "cylinders"
kind = "outside"
limits = ["82.950 mm", "3.267 in"]
[feature.bore]
count = "cylinders"
kind = "inside"
size = "83 H7"
levels = ["top", "middle", "bottom"]
axes = ["thrust", "pin"]
out_of_round = 0.010
taper = 0.012
out_of_round_by = "across_levels"
taper_by = "level_means"
window = [82.5, 83.5]
repeat = 0.010
where = "caps at torque, plates fitted"
fastest = "level"
presses = 3
material = "our iron"
source = "piston maker's sheet for this build"
labels = ["a", "b", "c", "d", "e", "f"]
[feature.main_journal]
count = "mains"
kind = "outside"
min = 59.98
[feature.end_play]
kind = "gap"
max = "0,25 mm"
[feature.lifter_bore]
count = 12
kind = "inside"
[feature.oil_feed_clear]
kind = "check"
before = ["piston", "bore"]
where = "look through it"
[fit.piston_clearance]
inside = "bore"
outside = "piston"
limits = [0.045, 0.065]
target = 0.050
judge = "mean"
inside_levels = ["middle"]
inside_axes = ["thrust"]
[spread.main_journal]
limit = 0.005
by = "readings"
)";

/// Rods that share crankpins, in inches.
inline constexpr auto kShared = R"(unit = "in"
layout = { cylinders = 4, crankpins = 2, labels = ["L1", "R1", "L2", "R2"], pins = [["R2", "L1"], ["L2", "R1"]] }
[feature.rod_bearing]
count = "cylinders"
kind = "inside"
[feature.crankpin]
count = "crankpins"
kind = "outside"
levels = ["front", "rear"]
[fit.rod_clearance]
inside = "rod_bearing"
outside = "crankpin"
seats = ["front", "rear"]
limits = [0.0014, "2.4 thou"]
)";

}  // namespace tenth
