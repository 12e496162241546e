// Limits of ISO 286 as the standard's tables have them, written down from memory beside the table that Tenth ships.
#include "tests/end_to_end/bench.hpp"

namespace acceptance {
namespace {

struct Class {
  const char* size;
  double upper_um, lower_um;
};

// Steps of the size ranges are among them: 18, 30, 50, 80, 120, 250, 315, 400 and 500 mm belong to the lower range.
constexpr Class classes[] = {
    {"83 H7", 35, 0},    {"60 js6", 9.5, -9.5},  {"50 k6", 18, 2},       {"50 m6", 25, 9},
    {"50 n6", 33, 17},   {"50 p6", 42, 26},      {"100 g6", -12, -34},   {"40 f7", -25, -50},
    {"25 e8", -40, -73}, {"20 d9", -65, -117},   {"10 c11", -80, -170},  {"50 P7", -17, -42},
    {"50 K7", 7, -18},   {"50 M7", 0, -25},      {"50 N7", -8, -33},     {"50 R7", -25, -50},
    {"80 H8", 46, 0},    {"120 H6", 22, 0},      {"55 r6", 60, 41},      {"70 s6", 78, 59},
    {"45 F8", 64, 25},   {"30 G7", 28, 7},       {"30 E9", 92, 40},      {"50 D10", 180, 80},
    {"3 h6", 0, -6},     {"3.1 h6", 0, -8},      {"18 H7", 18, 0},       {"18.01 H7", 21, 0},
    {"30 H7", 21, 0},    {"30.001 H7", 25, 0},   {"250 H7", 46, 0},      {"315 H7", 52, 0},
    {"400 H7", 57, 0},   {"500 H7", 63, 0},      {"25 P6", -18, -31},    {"25 N6", -11, -24},
    {"80 S7", -48, -78}, {"100 K6", 4, -18},     {"60 M6", -5, -24},     {"40 JS7", 12.5, -12.5},
    {"22 g6", -7, -20},  {"12 h5", 0, -8},       {"75 p5", 45, 32},      {"90 u6", 146, 124},
    {"30 t6", 54, 41},   {"200 h9", 0, -115},    {"6 H11", 75, 0},       {"24 X7", -46, -67},
    {"65 m5", 24, 11},   {"19 F7", 41, 20},      {"36 N9", 0, -62},      {"36 P9", -26, -88},
    {"50 N8", -3, -42},  {"50 M8", 5, -34},      {"30 M8", 4, -29},      {"50 k7", 27, 2},
    {"50 k8", 39, 0},    {"50 a11", -320, -480}, {"50 b11", -180, -340},
};

TEST_F(Bench, IsoClassesAreThoseOfTheTables) {
  std::string spec = "title = \"classes\"\nunit = \"mm\"\n";
  int number = 0;
  for (const Class& one : classes) {
    const std::string size = one.size;
    const bool hole = std::any_of(size.begin(), size.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
    spec += "[feature.part_" + std::to_string(++number) + "]\nkind = \"" + (hole ? "inside" : "outside") +
            "\"\nsize = \"" + size + "\"\n";
  }
  engine(spec);
  const json check = asked({"check"});
  number = 0;
  for (const Class& one : classes) {
    const double nominal = std::stod(one.size);
    const json reasons = pick(check["features"], {{"feature", "part_" + std::to_string(++number)}})["reasons"];
    EXPECT_NEAR(pick(reasons, {{"side", "upper"}})["limit_mm"].get<double>(), nominal + one.upper_um / 1000, 1e-9)
        << one.size;
    EXPECT_NEAR(pick(reasons, {{"side", "lower"}})["limit_mm"].get<double>(), nominal + one.lower_um / 1000, 1e-9)
        << one.size;
  }
}

}  // namespace
}  // namespace acceptance
