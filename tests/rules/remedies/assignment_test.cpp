#include "rules/remedies/assignment.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <numeric>
#include <random>
#include <set>

namespace tenth {
namespace {

CostMatrix matrix(const std::vector<std::vector<std::int64_t>>& costs) {
  CostMatrix result(costs.size(), costs.front().size());
  for (std::size_t row = 0; row < costs.size(); ++row)
    for (std::size_t column = 0; column < costs[row].size(); ++column) result.at(row, column) = costs[row][column];
  return result;
}

std::int64_t total(CostMatrix costs, const std::vector<std::size_t>& columns) {
  std::int64_t sum = 0;
  for (std::size_t row = 0; row < columns.size(); ++row) sum += costs.at(row, columns[row]);
  return sum;
}

std::int64_t by_trying_all(const CostMatrix& costs) {
  std::vector<std::size_t> columns(costs.columns);
  std::iota(columns.begin(), columns.end(), 0U);
  std::int64_t best = CostMatrix::kBarred;
  do best = std::min(best, total(costs, {columns.begin(), columns.begin() + static_cast<std::ptrdiff_t>(costs.rows)}));
  while (std::next_permutation(columns.begin(), columns.end()));
  return best;
}

// From memory: the textbook example of three workers; its least sum is 9 (2 + 3 + 4 by hand over all six).
TEST(Assignment, ATextbookCase) {
  const CostMatrix costs = matrix({{4, 2, 8}, {4, 3, 7}, {3, 1, 6}});
  const auto assigned = assign(costs);
  ASSERT_TRUE(assigned);
  EXPECT_EQ(total(costs, assigned->column_of), by_trying_all(costs));
}

TEST(Assignment, EveryRowHasItsOwnColumn) {
  const auto assigned = assign(matrix({{0, 1, 2, 3}, {0, 1, 2, 3}, {0, 1, 2, 3}}));
  ASSERT_TRUE(assigned);
  const std::set<std::size_t> columns(assigned->column_of.begin(), assigned->column_of.end());
  EXPECT_EQ(columns, (std::set<std::size_t>{0, 1, 2}));
}

TEST(Assignment, BarredPairsAreNotUsed) {
  constexpr std::int64_t kBarred = CostMatrix::kBarred;
  const auto assigned = assign(matrix({{1, 5}, {2, kBarred}}));
  ASSERT_TRUE(assigned);
  EXPECT_EQ(assigned->column_of, (std::vector<std::size_t>{1, 0}));
  EXPECT_FALSE(assign(matrix({{1, kBarred}, {2, kBarred}})));
}

RC_GTEST_PROP(AssignmentProperty, IsTheBestOfAllAndItsPricesProveIt, ()) {
  const auto rows = *rc::gen::inRange<std::size_t>(1, 6);
  const auto columns = rows + *rc::gen::inRange<std::size_t>(0, 3);
  CostMatrix costs(rows, columns);
  for (std::int64_t& cost : costs.costs) cost = *rc::gen::inRange<std::int64_t>(-30, 30);
  const auto assigned = assign(costs);
  RC_ASSERT(assigned.has_value());
  RC_ASSERT(total(costs, assigned->column_of) == by_trying_all(costs));
  for (std::size_t row = 0; row < rows; ++row)
    for (std::size_t column = 0; column < columns; ++column) {
      const std::size_t own = assigned->column_of[row];
      RC_ASSERT(costs.at(row, own) + assigned->prices[own] <= costs.at(row, column) + assigned->prices[column]);
      RC_ASSERT(assigned->prices[column] >= 0);
    }
}

TEST(AssignmentProperty, IsNoWorseThanRandomPairings) {
  std::mt19937 random(5);
  CostMatrix costs(60, 60);
  for (std::int64_t& cost : costs.costs) cost = static_cast<std::int64_t>(random() % 1'000'000);
  const auto assigned = assign(costs);
  ASSERT_TRUE(assigned);
  const std::int64_t best = total(costs, assigned->column_of);
  std::vector<std::size_t> columns(60);
  std::iota(columns.begin(), columns.end(), 0U);
  for (int i = 0; i < 2000; ++i) {
    std::ranges::shuffle(columns, random);
    EXPECT_LE(best, total(costs, columns));
  }
}

}  // namespace
}  // namespace tenth
