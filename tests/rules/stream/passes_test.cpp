#include "rules/stream/passes.hpp"

#include <gtest/gtest.h>

#include <string>

namespace tenth::stream {
namespace {

/// The passes of values in micrometres: "2<4>6" for a pass between samples 2 and 6 with the smallest at 4.
std::string told(std::initializer_list<int> values_um) {
  std::vector<Sample> samples;
  for (const int um : values_um) samples.push_back({static_cast<std::int64_t>(samples.size()), Length::from_um(um)});
  std::string text;
  for (const Pass& pass : passes_of(samples)) {
    if (!text.empty()) text += ' ';
    text += std::to_string(pass.from) + '<' + std::to_string(pass.lowest) + '>' + std::to_string(pass.to);
  }
  return text;
}

TEST(Passes, LieBetweenHeights) {
  EXPECT_EQ(told({100, 50, 0, 50, 100}), "0<2>4");
  EXPECT_EQ(told({100, 0, 200, 10, 150}), "0<1>2 2<3>4");
  EXPECT_EQ(told({50, 100, 0, 200, 250, 10, 150, 120}), "1<2>4 4<5>6");
}

TEST(Passes, OneWayIsNone) {
  EXPECT_EQ(told({}), "");
  EXPECT_EQ(told({7}), "");
  EXPECT_EQ(told({0, 50, 100}), "");
  EXPECT_EQ(told({100, 50, 0}), "");
  EXPECT_EQ(told({0, 50, 100, 60, 20}), "");
}

TEST(Passes, NoiseIsNone) {
  EXPECT_EQ(told({100, 71, 100, 71, 100}), "");
  EXPECT_EQ(told({100, 70, 100}), "0<1>2");
  EXPECT_EQ(told({100, 50, 70, 40, 60, 0, 29, 0, 100}), "0<5>8");
  EXPECT_EQ(told({100, 0, 100, 80, 110, 0, 100}), "0<1>4 4<5>6");
}

TEST(Passes, TheFirstOfEqualValuesStands) {
  EXPECT_EQ(told({100, 100, 0, 0, 100, 100}), "0<2>4");
}

}  // namespace
}  // namespace tenth::stream
