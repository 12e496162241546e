#include "rules/budget.hpp"

#include <algorithm>
#include <boost/multiprecision/cpp_int.hpp>

#include "rules/fit.hpp"

namespace tenth {
namespace {

/// A term in picometres × `kPart`: a whole number whatever it comes from. Its square needs up to 378 bits for any
/// lengths. Back in 64 bits it stops at the ends (so Boost converts to signed integers).
using Exact = boost::multiprecision::int512_t;

constexpr std::int64_t kPart = 9'000'000'000'000'000'000;  // 1e12 of an expansion × 9e6 of a warmth

Exact exact(Length length) {
  return Exact(length.pm()) * kPart;
}

Exact exact(const BudgetTerm& term) {
  if (term.source == BudgetTerm::Source::gauge) return exact(term.value);
  return Exact(term.expansion.per_k_e12) * term.mean.pm() * term.within.ninths_uk;
}

Length rounded_up(const Exact& value) {
  return Length::from_pm(static_cast<std::int64_t>((value + kPart - 1) / kPart));
}

Exact sum_of_squares(const Budget& budget) {
  Exact sum = 0;
  for (const BudgetTerm& term : budget.terms) sum += exact(term) * exact(term);
  return sum;
}

void add_side(Budget& budget, const Spec& spec, const std::string& feature, const Sample& side, bool inside) {
  if (side.uncertainty) budget.terms.push_back({inside, BudgetTerm::Source::gauge, *side.uncertainty, {}, {}, {}});
  if (!side.corrected || !side.within) return;
  BudgetTerm term{inside,
                  BudgetTerm::Source::temperature,
                  {},
                  expansion_of(spec, *spec.find(feature)).value(),
                  mean(side.as_read),
                  *side.within};
  term.value = rounded_up(exact(term));
  budget.terms.push_back(term);
}

/// The uncertainty that decides one figure: inside a limit it must leave room, beyond it be less than the excess.
std::optional<Length> room_of(const Reason& reason) {
  if (reason.verdict != Verdict::doubtful) return std::nullopt;
  const Length beyond = reason.side == Side::upper ? *reason.value - *reason.limit : *reason.limit - *reason.value;
  return beyond > Length() ? beyond - Length::from_pm(1) : -beyond;
}

std::vector<Settling> settling(const Budget& budget, Length room) {
  const Exact aim = exact(room) * exact(room), sum = sum_of_squares(budget);
  std::vector<Settling> all;
  for (std::size_t i = 0; i < budget.terms.size(); ++i) {
    const BudgetTerm& term = budget.terms[i];
    const Exact left = aim - (sum - exact(term) * exact(term));
    if (left < 0) continue;
    const Exact most = sqrt(left);
    Settling one{i, Length::from_pm(static_cast<std::int64_t>(most / kPart)), {}};
    const Exact per_ninth = Exact(term.expansion.per_k_e12) * term.mean.pm();
    if (per_ninth > 0) one.within.ninths_uk = static_cast<std::int64_t>(most / per_ninth);
    all.push_back(one);
  }
  return all;
}

}  // namespace

Budget budget_of(const Spec& spec, const Fit& fit, const Sample& inside, const Sample& outside) {
  Budget budget;
  budget.stated = inside.uncertainty && outside.uncertainty;
  add_side(budget, spec, fit.inside, inside, true);
  add_side(budget, spec, fit.outside, outside, false);
  return budget;
}

std::optional<Length> expanded(const Budget& budget) {
  if (!budget.stated) return std::nullopt;
  const Exact sum = sum_of_squares(budget);
  Exact root = sqrt(sum);
  if (root * root < sum) ++root;
  return rounded_up(root);
}

FitBudget fit_budget(const Engine& engine, const Fit& fit, const Couple& couple) {
  const CountingMap counts = counting(engine);
  const FitPlaces places = places_of_fit(*engine.spec, fit, couple);
  FitBudget result;
  result.result = judge_fit(engine, counts, fit, couple);
  result.budget = budget_of(*engine.spec, fit, sample(counts, places.inside), sample(counts, places.outside));
  if (!result.budget.stated || result.result.verdict != Verdict::doubtful) return result;
  for (const Reason& reason : result.result.reasons)
    if (const auto room = room_of(reason)) result.room = result.room ? std::min(*result.room, *room) : room;
  if (result.room) result.settling = settling(result.budget, *result.room);
  return result;
}

}  // namespace tenth
