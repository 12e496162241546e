#include "rules/statistics/summary.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

namespace tenth::statistics {

void Sum::add(double term) {
  const double next = sum_ + term;
  lost_ += std::abs(sum_) >= std::abs(term) ? (sum_ - next) + term : (term - next) + sum_;
  sum_ = next;
}

double scatter(double squares, std::size_t count, double largest) {
  const double rounding = 8 * std::numeric_limits<double>::epsilon() * largest;
  return squares <= static_cast<double>(count) * rounding * rounding ? 0 : squares;
}

std::optional<double> quotient(double a, double b) {
  if (b == 0) return std::nullopt;
  const double result = a / b;
  if (!std::isfinite(result)) return std::nullopt;
  return result;
}

Result<void> usable(Values values, std::size_t least, std::string_view what) {
  constexpr double kLargest = 1e15;  // far beyond any length in picometres; fourth powers stay far within a double
  const std::string name(what);
  if (values.size() < least)
    return refuse("too_few", name + " of " + std::to_string(values.size()) + " is too little data",
                  "take at least " + std::to_string(least) + " readings");
  if (!std::ranges::all_of(values, [](double x) { return std::abs(x) <= kLargest; }))
    return refuse("no_number", name + " holds a value that is no number within 1e15", "leave that value out");
  return {};
}

Summary summarize(Values values) {
  const auto n = static_cast<double>(values.size());
  const double first = values.front();
  Sum offsets;
  for (const double x : values) offsets.add(x - first);
  const double offset = offsets.value() / n;
  Sum squares, residues;
  for (const double x : values) {
    const double residue = (x - first) - offset;
    squares.add(residue * residue);
    residues.add(residue);
  }
  const auto [least, most] = std::ranges::minmax(values);
  Summary s{values.size(), first + offset, 0, 0, least, most};
  s.squares = std::max(0.0, squares.value() - residues.value() * residues.value() / n);
  if (values.size() > 1) s.deviation = std::sqrt(s.squares / (n - 1));
  return s;
}

Result<Summary> describe(Values values) {
  if (auto fine = usable(values, 2, "a standard deviation"); !fine) return tl::unexpected(fine.error());
  return summarize(values);
}

}  // namespace tenth::statistics
