#include "rules/stream/turn_fit.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <vector>

namespace tenth::stream {
namespace {

std::vector<Point> points_on(const std::function<double(double)>& curve, double from, double to, int count) {
  std::vector<Point> points;
  for (int i = 0; i < count; ++i) {
    const double x = from + (to - from) * i / (count - 1);
    points.push_back({x, curve(x)});
  }
  return points;
}

TEST(TurnFit, IsExactForAPendulumHand) {
  for (const double middle : {0.0, 0.3, 0.7})  // θ² for θ = middle + sin(x - 0.1), which crosses zero once
    for (const int count : {5, 6, 40}) {
      const auto curve = [=](double x) { return 0.5 * std::pow(middle + std::sin(x - 0.1), 2) - 0.02; };
      const double turn = 0.1 - std::asin(middle);
      const auto height = fit_turn(points_on(curve, turn - 0.6, turn + 0.7, count));
      ASSERT_TRUE(height);
      EXPECT_NEAR(*height, -0.02, 1e-6) << middle << " " << count;
    }
}

TEST(TurnFit, FollowsAnEvenHand) {
  const auto height = fit_turn(points_on([](double x) { return 0.4 * x * x - 0.01; }, -0.9, 1.0, 9));
  ASSERT_TRUE(height);
  EXPECT_NEAR(*height, -0.01, 0.0005);
}

TEST(TurnFit, LowPointsCountMore) {
  auto low = points_on([](double x) { return x * x; }, -1, 1, 21), high = low;
  low[10].height += 0.01;  // at the turn
  high[0].height += 0.01;
  EXPECT_GT(*fit_turn(low) - *fit_turn(points_on([](double x) { return x * x; }, -1, 1, 21)), 0.001);
  EXPECT_NEAR(*fit_turn(high), *fit_turn(points_on([](double x) { return x * x; }, -1, 1, 21)), 0.0001);
}

TEST(TurnFit, FewerPointsThanTermsAreTooFast) {
  const auto parabola = [](double x) { return x * x; };
  EXPECT_EQ(fit_turn(points_on(parabola, -1, 1, 4)).error(), NoTurning::too_fast);
  auto points = points_on(parabola, -1, 1, 4);
  points.insert(points.end(), 5, points.back());  // one time again and again
  EXPECT_EQ(fit_turn(points).error(), NoTurning::too_fast);
  points.front().x = std::nan("");
  EXPECT_EQ(fit_turn(points).error(), NoTurning::too_fast);
}

TEST(TurnFit, OneWayDoesNotTurn) {
  EXPECT_EQ(fit_turn(points_on([](double x) { return x * x; }, 0.2, 1, 9)).error(), NoTurning::one_sided);
  EXPECT_EQ(fit_turn(points_on([](double x) { return x * x; }, -1, -0.2, 9)).error(), NoTurning::one_sided);
}

}  // namespace
}  // namespace tenth::stream
