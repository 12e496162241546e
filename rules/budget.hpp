#pragma once

#include <string>
#include <vector>

#include "rules/figure.hpp"

namespace tenth {

/// One part of the expanded uncertainty (k = 2) of a fit: what the gauges of one side state, or what the temperature of
/// that side may be off by: expansion × mean size as read × how well the temperature is known.
struct BudgetTerm {
  enum class Source { gauge, temperature };
  bool inside = true;
  Source source = Source::gauge;
  Length value;         ///< rounded up to a picometre
  Expansion expansion;  ///< these three of a temperature
  Length mean;
  Warmth within;
};

struct Budget {
  bool stated = false;  ///< both sides' gauges state an uncertainty; else the fit has none
  std::vector<BudgetTerm> terms;
};
Budget budget_of(const Spec& spec, const Fit& fit, const Sample& inside, const Sample& outside);

/// The root of the sum of the squares, exactly, rounded up to a picometre; none where one side states nothing.
std::optional<Length> expanded(const Budget& budget);

/// What would decide a doubtful fit if one term alone were smaller: the largest that it may be. Each with the term's
/// place in the budget.
struct Settling {
  std::size_t term = 0;
  Length at_most;
  Warmth within;  ///< of a temperature
};

struct FitBudget {
  FitResult result;
  Budget budget;
  std::optional<Length> room;      ///< a doubtful fit would be decided by an uncertainty of this
  std::vector<Settling> settling;  ///< empty: no single term can
};
FitBudget fit_budget(const Engine& engine, const Fit& fit, const Couple& couple);

}  // namespace tenth
