#include "rules/remedies/choice.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cstdlib>
#include <ctime>
#include <random>

#include "rules/remedies/layers.hpp"

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

/// What is left out for being too dear rests on this.
RC_GTEST_PROP(ChoiceProperty, NoChoiceIsBelowTheBound, ()) {
  std::mt19937 random(*rc::gen::arbitrary<std::uint32_t>());
  std::vector<int> supply;
  const Rows rows = draw_scarce(random, supply);
  const auto best = by_trying_all(rows, supply);
  RC_PRE(best.has_value());
  choice::Rows priced(rows.size());
  for (std::size_t row = 0; row < rows.size(); ++row)
    for (std::size_t i = 0; i < rows[row].size(); ++i)
      if (choice::to_be_had(rows[row][i], supply)) priced[row].push_back({rows[row][i], row, i, {}});
  for (const std::size_t aim : {0U, 1U}) {  // of the second aim among those that do best by the first
    choice::Best found;
    choice::SidePrices prices;
    std::int64_t bound = choice::price(priced, supply, aim, aim == 0 ? 0 : (*best)[0], found, prices);
    RC_ASSERT(bound <= (*best)[aim] * choice::kFine);
    for (int i = 0; i < 4; ++i) {
      const auto raised = choice::lift(priced, supply, aim, prices);
      RC_ASSERT(raised.has_value());
      RC_ASSERT(*raised >= 0);
      bound += *raised;
      RC_ASSERT(bound <= (*best)[aim] * choice::kFine);
    }
  }
}

TEST(Layer, OfTwoThatLeaveTheSameTheCheaperIsKept) {
  const std::vector<int> left = {2, 2};
  const Way one{{0, 1}, {}}, same{{1, 0}, {}}, other{{0, 0}, {}};
  for (const bool cheap_first : {true, false}) {
    choice::Layer layer(2);
    layer.add(left, one, {{0, cheap_first ? 1 : 5, 0}, {}, 0, 0});
    layer.add(left, same, {{0, cheap_first ? 5 : 1, 0}, {}, 0, 1});
    layer.add(left, other, {{0, 9, 0}, {}, 0, 2});
    ASSERT_EQ(layer.size(), 2U);
    EXPECT_EQ(layer.at(0).cost, (Cost{0, 1, 0}));
    EXPECT_EQ(layer.left(1)[0], 0);
  }
}

TEST(Layer, ACutKeepsTheMostPromising) {
  choice::Layer layer(1);
  for (int i = 0; i < 5; ++i) layer.add(std::vector{100 + i}, {}, {{0, i, 0}, {i % 3, 0, 0}, 0, 0});
  layer.cut(2, 0);
  ASSERT_EQ(layer.size(), 2U);
  EXPECT_EQ(layer.at(0).slack[0] + layer.at(1).slack[0], 3);  // 2 and 1
  layer.add(layer.left(0), {}, {{0, 100, 0}, {}, 0, 0});
  EXPECT_EQ(layer.size(), 2U);  // it still knows what it has
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
