// The engines that the tests build: of our own invention, in millimetres and in inches.
#pragma once

#include <string>

namespace acceptance {

// Bores 86.000 to 86.035 mm (86 H7), pistons 85.945 to 85.960, main journals 53.981 to 54.000 (54 h6).
inline const std::string inline_four = R"(title = "Acceptance: inline four, 2.3 litre"
unit = "mm"
[layout]
cylinders = 4
mains = 5
crankpins = 4
viewed_from = "front"
[facts]
use = "hill climb, naturally aspirated"
[feature.bore]
count = "cylinders"
kind = "inside"
size = "86 H7"
levels = ["top", "middle", "bottom"]
axes = ["thrust", "pin"]
out_of_round = 0.010
taper = 0.012
where = "plates fitted"
material = "grey iron"
source = "piston maker's sheet"
[feature.piston]
count = "cylinders"
kind = "outside"
limits = [85.945, 85.960]
[feature.main_bearing]
count = "mains"
kind = "inside"
limits = [54.030, 54.050]
axes = ["vertical", "oblique"]
[feature.main_journal]
count = "mains"
kind = "outside"
size = "54 h6"
[feature.ring_gap_top]
count = "cylinders"
kind = "gap"
limits = [0.35, 0.50]
[feature.oil_feed_clear]
kind = "check"
before = ["piston"]
[fit.piston_clearance]
inside = "bore"
outside = "piston"
limits = [0.045, 0.075]
target = 0.060
inside_levels = ["middle"]
[fit.main_clearance]
inside = "main_bearing"
outside = "main_journal"
limits = [0.035, 0.065]
judge = "mean"
[spread.main_journal]
limit = 0.005
)";

// The smallest engine that a reading can belong to: one place for each kind of gauge.
inline const std::string single = R"(title = "Acceptance: single"
unit = "mm"
[layout]
cylinders = 1
mains = 2
crankpins = 1
[feature.bore]
kind = "inside"
limits = [70.000, 70.020]
[feature.piston]
kind = "outside"
limits = [69.940, 69.955]
[feature.ring_gap_top]
kind = "gap"
limits = [0.30, 0.45]
[feature.deck]
kind = "depth"
limits = [1.00, 1.20]
)";

// Two banks whose rods share pins, named along the crank.
inline const std::string vee_eight = R"(title = "Acceptance: vee eight, inch"
unit = "in"
[layout]
cylinders = 8
mains = 5
crankpins = 4
viewed_from = "front"
labels = ["L1", "R1", "L2", "R2", "L3", "R3", "L4", "R4"]
pins = [["L1", "R1"], ["L2", "R2"], ["L3", "R3"], ["L4", "R4"]]
[feature.bore]
count = "cylinders"
kind = "inside"
limits = [4.0300, 4.0310]
levels = ["top", "bottom"]
axes = ["thrust", "pin"]
fastest = "level"
[feature.crankpin]
count = "crankpins"
kind = "outside"
limits = ["2.0990 in", "2.1000 in"]
levels = ["front", "rear"]
[feature.rod_bearing]
count = "cylinders"
kind = "inside"
limits = [2.1015, 2.1025]
[fit.rod_clearance]
inside = "rod_bearing"
outside = "crankpin"
seats = ["front", "rear"]
limits = [0.0020, 0.0030]
)";

}  // namespace acceptance
