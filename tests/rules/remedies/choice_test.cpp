#include "rules/remedies/choice.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <random>

#include "rules/remedies/bound.hpp"
#include "rules/remedies/branching.hpp"

namespace tenth {
namespace {

using Rows = std::vector<std::vector<Way>>;

/// Every combination there is, but for those dearer than the best already.
void try_all(const Rows& rows, std::vector<int>& supply, std::size_t row, const Cost& so_far,
             std::optional<Cost>& best) {
  if (best && so_far >= *best) return;
  if (row == rows.size()) {
    best = so_far;
    return;
  }
  for (const Way& way : rows[row]) {
    bool enough = true;
    for (const int take : way.takes)
      if (take >= 0) --supply[static_cast<std::size_t>(take)];
    for (const int take : way.takes) enough = enough && (take < 0 || supply[static_cast<std::size_t>(take)] >= 0);
    if (enough) try_all(rows, supply, row + 1, so_far + way.cost, best);
    for (const int take : way.takes)
      if (take >= 0) ++supply[static_cast<std::size_t>(take)];
  }
}

std::optional<Cost> by_trying_all(const Rows& rows, std::vector<int> supply) {
  std::optional<Cost> best;
  try_all(rows, supply, 0, {}, best);
  return best;
}

std::optional<Cost> chosen(const Rows& rows, std::vector<int> supply) {
  const auto choice = best_choice(rows, supply);
  if (!choice) return std::nullopt;
  Cost cost = {};
  for (std::size_t row = 0; row < rows.size(); ++row) {
    const Way& way = rows[row].at(choice->position[row]);
    cost = cost + way.cost;
    for (const int take : way.takes)
      if (take >= 0) {
        EXPECT_GE(--supply[static_cast<std::size_t>(take)], 0) << "more than there is of " << take;
      }
  }
  return cost;
}

TEST(Choice, TakesTheCheapestWayOfARow) {
  EXPECT_EQ(chosen({{{{-1, -1}, {1, 0, 0}}, {{-1, -1}, {0, 9, 9}}}}, {}), (Cost{0, 9, 9}));
}

TEST(Choice, TheFirstAimCountsBeforeAllOfTheSecond) {
  const Rows rows = {{{{-1, -1}, {0, 1000, 5}}, {{-1, -1}, {1, 0, 0}}}};
  EXPECT_EQ(chosen(rows, {}), (Cost{0, 1000, 5}));
}

TEST(Choice, IsNotGreedy) {
  // The cheapest for the first row leaves the second with the dearest.
  const Rows rows = {{{{0, -1}, {0, 1, 0}}, {{1, -1}, {0, 2, 0}}}, {{{0, -1}, {0, 1, 0}}, {{1, -1}, {0, 50, 0}}}};
  EXPECT_EQ(chosen(rows, {1, 1}), (Cost{0, 3, 0}));
}

TEST(Choice, ThereIsNoneWhereTheSuppliesDoNotSuffice) {
  const Rows rows = {{{{0, -1}, {}}}, {{{0, -1}, {}}}};
  EXPECT_FALSE(best_choice(rows, {1}));
  EXPECT_TRUE(best_choice(rows, {2}));
  EXPECT_FALSE(best_choice({{}}, {}));
}

TEST(Choice, AWayMayTakeTwoOfOneSupply) {
  const Rows rows = {{{{0, 0}, {0, 1, 0}}, {{-1, -1}, {0, 7, 0}}}};
  EXPECT_EQ(chosen(rows, {1}), (Cost{0, 7, 0}));
  EXPECT_EQ(chosen(rows, {2}), (Cost{0, 1, 0}));
}

/// Seats that want a sum of two walls, as bearings do; costs are not in, off target, moved.
struct Bearings {
  int seats = 10, kinds = 40;
  bool either = false;
  std::int64_t grid = 1, window = 2000, wanted = 0;
  bool alike = false;
  int count = 1;
};

Rows bearings(const Bearings& asked, std::mt19937& random, std::vector<int>& supply) {
  constexpr std::int64_t kSpread = 100'000;
  const auto draw = [&](std::int64_t below) { return static_cast<std::int64_t>(random()) % below; };
  const auto on_grid = [&](std::int64_t value) { return value / asked.grid * asked.grid; };
  const auto kinds = static_cast<std::size_t>(asked.kinds);
  std::vector<std::int64_t> wall;
  for (std::size_t i = 0; i < kinds; ++i) wall.push_back(on_grid(draw(kSpread)));
  supply.assign(kinds, asked.count);
  const std::int64_t common = on_grid(draw(kSpread));
  Rows rows;
  for (int seat = 0; seat < asked.seats; ++seat) {
    const int upper = static_cast<int>(draw(asked.kinds / 2));
    const int lower = static_cast<int>(asked.kinds / 2 + draw(asked.kinds / 2));
    ++supply[static_cast<std::size_t>(upper)];
    ++supply[static_cast<std::size_t>(lower)];
    const std::int64_t want = asked.wanted + (asked.alike ? common + draw(3) * asked.grid : on_grid(draw(kSpread)));
    std::vector<Way>& ways = rows.emplace_back();
    for (int u = 0; u < asked.kinds; ++u)
      for (int l = 0; l < asked.kinds; ++l) {
        if (!asked.either && (u >= asked.kinds / 2 || l < asked.kinds / 2)) continue;
        const std::int64_t off = std::abs(want - wall[static_cast<std::size_t>(u)] - wall[static_cast<std::size_t>(l)]);
        ways.push_back({{u, l}, {off > asked.window ? 1 : 0, off, (u != upper ? 1 : 0) + (l != lower ? 1 : 0)}});
      }
  }
  return rows;
}

/// Few halves for many seats, so that one seat's gain is another's loss.
Rows draw_scarce(std::mt19937& random, std::vector<int>& supply) {
  Bearings asked;
  asked.seats = *rc::gen::inRange(1, 6);
  asked.kinds = 2 * *rc::gen::inRange(1, 4);
  asked.either = *rc::gen::arbitrary<bool>();
  asked.alike = *rc::gen::arbitrary<bool>();
  asked.grid = *rc::gen::element<std::int64_t>(1, 5000, 25'000);
  asked.window = *rc::gen::inRange<std::int64_t>(0, 60'000);
  asked.wanted = *rc::gen::inRange<std::int64_t>(-50'000, 100'000);
  asked.count = *rc::gen::inRange(0, 2);
  Rows rows = bearings(asked, random, supply);
  for (int& each : supply) each = std::max(0, each - *rc::gen::inRange(0, 2));
  return rows;
}

RC_GTEST_PROP(ChoiceProperty, IsTheBestOfAll, ()) {
  std::mt19937 random(*rc::gen::arbitrary<std::uint32_t>());
  std::vector<int> supply;
  const Rows rows = draw_scarce(random, supply);
  RC_ASSERT(chosen(rows, supply) == by_trying_all(rows, supply));
}

/// Rows that want two of three halves, any two: by halves of ways all are content, in whole ways one is.
Rows draw_circles(std::vector<int>& supply) {
  const auto cost = [](int most) {
    return Cost{*rc::gen::inRange(0, 2), *rc::gen::inRange(0, most), *rc::gen::inRange(0, 3)};
  };
  const int circles = *rc::gen::inRange(1, 3), most = *rc::gen::element(2, 6, 100);
  Rows rows;
  for (int circle = 0; circle < circles; ++circle)
    for (int row = 0; row < 3; ++row) {
      std::vector<Way>& ways = rows.emplace_back(1, Way{{-1, -1}, {2, most, 2}});
      for (int half = 0; half < 3; ++half)
        ways.push_back({{3 * circle + half, 3 * circle + (half + 1) % 3}, cost(most)});
    }
  supply.assign(static_cast<std::size_t>(3 * circles), *rc::gen::inRange(1, 3));
  return rows;
}

/// The relaxation falls short here, and the search has to part the choices.
RC_GTEST_PROP(ChoiceProperty, IsTheBestOfAllWhereHalvesGoInCircles, ()) {
  std::vector<int> supply;
  const Rows rows = draw_circles(supply);
  RC_ASSERT(chosen(rows, supply) == by_trying_all(rows, supply));
}

/// Twenty circles in which one of three rows can be content: by fractions half of all, and to prove that it is a third
/// every circle has to be parted, in all combinations.
TEST(Choice, SaysWhereAProofWouldTakeTooLong) {
  constexpr int kCircles = 20;
  Rows rows;
  for (int row = 0; row < 3 * kCircles; ++row) {
    rows.push_back({{{-1, -1}, {1, 0, 0}}});
    for (int half = 0; half < 3; ++half)
      rows.back().push_back({{row / 3 * 3 + half, row / 3 * 3 + (half + 1) % 3}, {0, 0, 0}});
  }
  const auto choice = best_choice(rows, std::vector<int>(3 * kCircles, 1));
  ASSERT_TRUE(choice);
  EXPECT_FALSE(choice->proven);
  EXPECT_EQ(std::ranges::count(choice->position, 0U), 2 * kCircles);
}

choice::Rows priced_rows(const Rows& rows, const std::vector<int>& supply) {
  choice::Rows priced(rows.size());
  for (std::size_t row = 0; row < rows.size(); ++row)
    for (std::size_t i = 0; i < rows[row].size(); ++i)
      if (choice::to_be_had(rows[row][i], supply)) priced[row].push_back({rows[row][i], row, i});
  return priced;
}

/// Prices that nobody computed: of all sizes, of all combinations of supplies and earlier aims.
choice::Relaxed draw_prices(std::mt19937& random, std::size_t supplies, std::size_t aim) {
  const auto draw = [&] { return std::ldexp(static_cast<double>(random() % 1000), -static_cast<int>(random() % 20)); };
  choice::Relaxed drawn;
  for (std::size_t i = 0; i < supplies; ++i) drawn.prices.push_back(random() % 3 == 0 ? 0 : 100 * draw());
  for (std::size_t i = 0; i < aim; ++i) drawn.budgets.push_back(draw());
  return drawn;
}

/// What is left out for being too dear rests on this, whatever the prices.
RC_GTEST_PROP(ChoiceProperty, NoChoiceIsBelowTheBound, ()) {
  std::mt19937 random(*rc::gen::arbitrary<std::uint32_t>());
  std::vector<int> supply;
  const Rows rows = draw_scarce(random, supply);
  const auto best = by_trying_all(rows, supply);
  RC_PRE(best.has_value());
  choice::Rows priced = priced_rows(rows, supply);
  for (const std::size_t aim : {0U, 1U, 2U}) {
    const choice::Relaxed relaxed = choice::relaxed(priced, supply, aim, *best);
    RC_ASSERT(relaxed.fits);
    RC_ASSERT(choice::bound(priced, supply, aim, *best, relaxed) <= (*best)[aim] * choice::kFine);
    const choice::Relaxed drawn = draw_prices(random, supply.size(), aim);
    RC_ASSERT(choice::bound(priced, supply, aim, *best, drawn) <= (*best)[aim] * choice::kFine);
  }
}

/// Nor does a way that a best choice needs lie too far above it.
RC_GTEST_PROP(ChoiceProperty, WaysOfABestChoiceAreKept, ()) {
  std::mt19937 random(*rc::gen::arbitrary<std::uint32_t>());
  std::vector<int> supply;
  const Rows rows = draw_scarce(random, supply);
  const auto found = best_choice(rows, supply);
  RC_PRE(found.has_value());
  Cost best = {};
  for (std::size_t row = 0; row < rows.size(); ++row) best = best + rows[row][found->position[row]].cost;
  choice::Rows priced = priced_rows(rows, supply);
  for (const std::size_t aim : {0U, 1U, 2U}) {
    const choice::Relaxed drawn = draw_prices(random, supply.size(), aim);
    std::int64_t sum = choice::bound(priced, supply, aim, best, drawn);
    for (std::size_t row = 0; row < rows.size(); ++row)
      sum += std::ranges::find(priced[row], found->position[row], &choice::Candidate::position)->excess;
    RC_ASSERT(sum <= best[aim] * choice::kFine);
  }
}

/// Where no fractions fill every row the prices show it, and only there.
RC_GTEST_PROP(ChoiceProperty, WhatFitsIsNotRefused, ()) {
  std::mt19937 random(*rc::gen::arbitrary<std::uint32_t>());
  std::vector<int> supply;
  const Rows rows = draw_scarce(random, supply);
  choice::Rows priced = priced_rows(rows, supply);
  RC_PRE(std::ranges::none_of(priced, [](const auto& row) { return row.empty(); }));
  choice::Relaxed relaxed = choice::relaxed(priced, supply, 0, {});
  relaxed.fits = false;  // any prices may be put forward
  if (by_trying_all(rows, supply)) RC_ASSERT(choice::bound(priced, supply, 0, {}, relaxed) != INT64_MAX);
}

TEST(Relaxation, TwoSeatsThatWantTheSameHalfShareTheBurden) {
  const Rows rows = {{{{0, -1}, {0, 1, 0}}, {{-1, -1}, {0, 9, 0}}}, {{{0, -1}, {0, 1, 0}}, {{-1, -1}, {0, 5, 0}}}};
  choice::Rows priced = priced_rows(rows, {1});
  const choice::Relaxed relaxed = choice::relaxed(priced, std::vector{1}, 1, {});
  EXPECT_TRUE(relaxed.fits);
  EXPECT_NEAR(relaxed.share[0][0], 1, 1e-5);
  EXPECT_NEAR(relaxed.share[1][1], 1, 1e-5);
  EXPECT_NEAR(relaxed.prices[0], 4, 1e-5);  // what the second gives up by doing without
  EXPECT_NEAR(static_cast<double>(choice::bound(priced, std::vector{1}, 1, {}, relaxed)) / choice::kFine, 6, 0.01);
}

TEST(Relaxation, SaysWhereNothingFits) {
  const Rows rows = {{{{0, -1}, {}}}, {{{0, -1}, {}}}};
  choice::Rows priced = priced_rows(rows, {1});
  const choice::Relaxed relaxed = choice::relaxed(priced, std::vector{1}, 0, {});
  EXPECT_FALSE(relaxed.fits);
  EXPECT_EQ(choice::bound(priced, std::vector{1}, 0, {}, relaxed), INT64_MAX);
}

/// Ten seats and forty kinds, of every sort that proved hard: the work that is allowed suffices.
TEST(Choice, TenSeatsAndFortyKindsAreProven) {
  std::mt19937 random(20261126);
  const auto one_of = [&](const std::vector<std::int64_t>& each) { return each[random() % each.size()]; };
  for (int time = 0; time < 150; ++time) {
    Bearings asked;
    asked.either = random() % 2 == 0;
    asked.alike = random() % 3 == 0;
    asked.grid = one_of({1, 100, 1000, 2540, 5000, 10'000, 25'000});
    asked.window = one_of({0, 500, 2000, 5000, 12'700, 30'000});
    asked.wanted = one_of({-50'000, -20'000, 0, 20'000, 50'000, 80'000, 100'000});
    asked.count = static_cast<int>(one_of({0, 0, 1, 1, 2}));
    std::vector<int> supply;
    const Rows rows = bearings(asked, random, supply);
    const auto choice = best_choice(rows, supply);
    ASSERT_TRUE(choice);
    EXPECT_TRUE(choice->proven) << "the draw of number " << time;
  }
}

/// Costs at the ends of what is allowed do not leave 64 bits.
TEST(ChoiceProperty, HoldsAtTheLargestCosts) {
  constexpr std::int64_t kMost = 10'000'000'000;
  Rows rows;
  for (int row = 0; row < 200; ++row)
    rows.push_back({{{row % 20, -1}, {1, kMost, 2}}, {{(row + 1) % 20, -1}, {1, kMost - row % 3, 0}}});
  const auto cost = chosen(rows, std::vector<int>(20, 10));
  ASSERT_TRUE(cost);
  EXPECT_EQ((*cost)[0], 200);
  EXPECT_LE((*cost)[1], 200 * kMost);
}

}  // namespace
}  // namespace tenth
