#include "rules/iso286.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "rules/nearest.hpp"

namespace tenth {

namespace {

/// A step of nominal sizes, over `over` up to and including `to`, in millimetres. All figures below are whole
/// micrometres.
struct Step {
  int over, to;
  /// The standard's formulas take the geometric mean of a step. Floating point only chooses the whole micrometre.
  double mean() const { return std::sqrt(static_cast<double>(over) * to); }
};

constexpr std::array<int, 10> kBounds = {3, 6, 10, 18, 30, 50, 80, 120, 180, 250};
constexpr int kFirstGrade = 5, kLastGrade = 9;

/// Cells that the standard's tables set by hand, beside its formulas; `what` is a deviation, or a grade as a digit.
struct HandSet {
  char what;
  int over, value;
};
constexpr std::array<HandSet, 7> kHandSet = {
    {{'6', 3, 8}, {'9', 3, 30}, {'7', 6, 15}, {'7', 10, 18}, {'d', 6, 40}, {'e', 80, 72}, {'n', 80, 23}}};

/// To 1 µm up to `fine`, to 5 µm above.
int rounded(double value, double fine, char what, Step step) {
  for (const auto& cell : kHandSet)
    if (cell.what == what && cell.over == step.over) return cell.value;
  return static_cast<int>(value <= fine ? std::lround(value) : 5 * std::lround(value / 5));
}

/// Standard tolerance: so many times the tolerance factor i.
int tolerance(int grade, Step step) {
  constexpr std::array<int, 5> kFactors = {7, 10, 16, 25, 40};
  const double i = 0.45 * std::cbrt(step.mean()) + 0.001 * step.mean();
  return rounded(kFactors.at(static_cast<std::size_t>(grade - kFirstGrade)) * i, 100, static_cast<char>('0' + grade),
                 step);
}

/// p lies this much above IT7, step by step.
int excess_of_p(Step step) {
  constexpr std::array<int, 9> kExcess = {0, 0, 0, 1, 1, 2, 2, 3, 4};
  const auto at = std::find(kBounds.begin(), kBounds.end(), step.over) - kBounds.begin();
  return kExcess.at(static_cast<std::size_t>(at));
}

/// How far the near limit of a shaft lies from the nominal size: below it for d to g, above it for k to p.
int deviation(char letter, Step step) {
  const double d = step.mean();
  switch (letter) {
    case 'd':
      return rounded(16 * std::pow(d, 0.44), 45, letter, step);
    case 'e':
      return rounded(11 * std::pow(d, 0.41), 45, letter, step);
    case 'f':
      return rounded(5.5 * std::pow(d, 0.41), 45, letter, step);
    case 'g':
      return rounded(2.5 * std::pow(d, 0.34), 45, letter, step);
    case 'k':
      return rounded(0.6 * std::cbrt(d), 100, letter, step);
    case 'm':
      return tolerance(7, step) - tolerance(6, step);
    case 'n':
      return rounded(5 * std::pow(d, 0.34), 100, letter, step);
    case 'p':
      return tolerance(7, step) + excess_of_p(step);
    default:
      return 0;  // h
  }
}

/// A class taken apart: "js" is the letter j here.
struct Class {
  Length nominal;
  char letter = 'h';
  bool hole = false;
  int grade = 0;
};

Limits above(const Class& c, Step step, Length near) {
  return {c.nominal + near, c.nominal + near + Length::from_um(tolerance(c.grade, step))};
}

Limits below(const Class& c, Step step, Length near) {
  return {c.nominal + near - Length::from_um(tolerance(c.grade, step)), c.nominal + near};
}

/// Holes mirror shafts; K to P are moved back by the difference to the next finer grade, K to N up to IT8, P up to IT7,
/// so that a hole with a shaft one grade finer fits alike on either basis.
Limits limits_of(const Class& c, Step step) {
  if (c.letter == 'j') return above(c, step, Length::from_pm(tolerance(c.grade, step) * std::int64_t{-500'000}));
  const Length near = Length::from_um(deviation(c.letter, step));
  if (c.letter <= 'h') return c.hole ? above(c, step, near) : below(c, step, -near);
  if (!c.hole) return above(c, step, near);
  const bool moved = c.grade <= (c.letter == 'p' ? 7 : 8);
  const int back = moved ? tolerance(c.grade, step) - tolerance(c.grade - 1, step) : 0;
  return below(c, step, Length::from_um(back) - near);
}

/// The grades that are known for a deviation; first > last: none.
std::pair<int, int> grades_of(const Class& c) {
  constexpr std::string_view kLetters = "defghjkmnp";
  if (kLetters.find(c.letter) == std::string_view::npos) return {1, 0};
  if (c.letter == 'k' && !c.hole) return {5, 7};
  if (c.letter > 'j' && c.hole) return {6, c.letter == 'p' ? 9 : 8};
  return {kFirstGrade, kLastGrade};
}

constexpr auto kInstead = "give limits = [lower, upper] instead";

auto no_class(std::string_view size) {
  return refuse("tolerance_class", quoted(size) + " is no ISO 286 class",
                "write a size in mm and a class, such as 83 H7 or 60 js6");
}

Result<Class> parse_class(std::string_view size) {
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  const auto begin = std::find_if(size.begin(), size.end(), letter);
  const auto end = std::find_if_not(begin, size.end(), letter);
  std::string_view number(size.begin(), begin);
  if (number.ends_with(' ')) number.remove_suffix(1);
  const auto nominal = length_from_decimal(number, Unit::mm);
  const std::string letters(begin, end), grade(end, size.end());
  const bool digits = !grade.empty() && grade.size() <= 2 &&
                      std::all_of(grade.begin(), grade.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (!nominal || letters.empty() || !digits) return no_class(size);
  Class c{*nominal, letters.front(), false, std::stoi(grade)};
  c.hole = c.letter < 'a';
  if (c.hole) c.letter = static_cast<char>(c.letter - 'A' + 'a');
  if (letters == "js" || letters == "JS") return c;
  if (letters.size() != 1 || c.letter == 'j')
    return refuse("tolerance_class", "the deviation " + quoted(letters) + " of " + quoted(size) + " is not known",
                  kInstead);
  return c;
}

}  // namespace

Result<Limits> iso286_limits(std::string_view size) {
  const auto c = parse_class(size);
  if (!c) return tl::unexpected(c.error());
  const auto to =
      std::find_if(kBounds.begin(), kBounds.end(), [&](int bound) { return c->nominal <= Length::from_mm(bound); });
  if (to == kBounds.begin() || to == kBounds.end())
    return refuse("tolerance_class", quoted(size) + " is not over 3 mm up to 250 mm", kInstead);
  const auto [first, last] = grades_of(*c);
  const std::string grades = std::to_string(first) + " to " + std::to_string(last);
  if (first > last) return refuse("tolerance_class", "the deviation of " + quoted(size) + " is not known", kInstead);
  if (c->grade < first || c->grade > last)
    return refuse("tolerance_class", quoted(size) + " is not known: here this deviation has the grades " + grades,
                  kInstead);
  return limits_of(*c, {*(to - 1), *to});
}

}  // namespace tenth
