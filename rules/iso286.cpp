#include "rules/iso286.hpp"

#include <algorithm>

#include "rules/iso286_class.hpp"
#include "rules/iso286_tables.hpp"
#include "rules/nearest.hpp"

namespace tenth {
namespace {

auto unknown(std::string_view size, const std::string& why) {
  return refuse("tolerance_class", quoted(size) + " is not known: " + why, "give limits = [lower, upper] instead");
}

bool over(const ToleranceClass& c, int mm) {
  return c.nominal > Length::from_mm(mm);
}

bool among(std::string_view letters, std::initializer_list<std::string_view> some) {
  return std::ranges::find(some, letters) != some.end();
}

/// Of sizes over 3 up to 500 mm, so that a hole with a shaft one grade finer fits alike on either basis.
bool moved_back(const ToleranceClass& c) {
  return over(c, 3) && !over(c, 500) && c.grade <= (among(c.letters, {"k", "m", "n"}) ? 8 : 7);
}

/// What stands against a class though its letters and its grade have numbers at this size; empty: nothing.
std::string reserve(const ToleranceClass& c) {
  const bool hole_from_k = c.hole && c.letters >= "k";
  if (!over(c, 1) && c.grade >= 14) return "up to 1 mm there are the grades 01 to 13";
  if (!over(c, 1) && among(c.letters, {"a", "b"})) return "up to 1 mm there is no a and no b";
  if (!over(c, 1) && hole_from_k && c.letters == "n" && c.grade > 8) return "up to 1 mm N has no grade above 8";
  if (hole_from_k && moved_back(c) && c.grade < 3) return "here holes from K on have no grade below 3";
  if (hole_from_k && c.letters == "k" && over(c, 3) && c.grade > 8) return "here K has no grade above 8";
  if (hole_from_k && among(c.letters, {"m", "n"}) && over(c, 500) && c.grade > 8)
    return "here M and N have no grade above 8";
  return {};
}

/// How far the upper limit of a hole from K on lies above the nominal size.
Length upper_of_hole(const ToleranceClass& c, Length deviation, Length tolerance) {
  const bool set_by_hand = c.letters == "m" && c.grade == 6 && over(c, 250) && !over(c, 315);
  if (set_by_hand) return Length::from_um(-9);
  if (moved_back(c)) return tolerance - *standard_tolerance(c.grade - 1, c.nominal) - deviation;
  const bool n_of_coarse_grades = c.letters == "n" && over(c, 3) && !over(c, 500);
  return n_of_coarse_grades ? Length() : -deviation;
}

Limits limits_of(const ToleranceClass& c, Length deviation, Length tolerance) {
  const auto above = [&](Length near) { return Limits{c.nominal + near, c.nominal + near + tolerance}; };
  const auto below = [&](Length near) { return Limits{c.nominal + near - tolerance, c.nominal + near}; };
  if (c.letters <= "h") return c.hole ? above(deviation) : below(-deviation);
  if (c.hole) return below(upper_of_hole(c, deviation, tolerance));
  const bool k_at_nominal = c.letters == "k" && (c.grade < 4 || c.grade > 7);
  return above(k_at_nominal ? Length() : deviation);
}

Limits symmetric(const ToleranceClass& c, Length tolerance) {
  const Length half = Length::from_pm(tolerance.pm() / 2);  // every tolerance is a whole number of 0.1 µm
  return {c.nominal - half, c.nominal + half};
}

}  // namespace

Result<Limits> iso286_limits(std::string_view size) {
  TENTH_TRY(const ToleranceClass c, parse_tolerance_class(size));
  if (c.nominal <= Length() || c.nominal > kLargestNominal) return unknown(size, "it is not over 0 up to 3150 mm");
  const auto tolerance = standard_tolerance(c.grade, c.nominal);
  if (!tolerance)
    return unknown(size, over(c, 500) ? "here are the grades 1 to 18" : "the grades are 01, 0 and 1 to 18");
  const bool js = c.letters == "js";
  const auto deviation = js ? Length() : shaft_deviation(c.letters, c.nominal);
  if (!deviation) return unknown(size, "the deviation " + c.written + " is not known for this size");
  if (const std::string why = reserve(c); !why.empty()) return unknown(size, why);
  const Limits limits = js ? symmetric(c, *tolerance) : limits_of(c, *deviation, *tolerance);
  if (*limits.lower <= Length()) return unknown(size, "it leaves nothing of the size");
  return limits;
}

}  // namespace tenth
