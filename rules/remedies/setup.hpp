#pragma once

#include <map>
#include <span>

#include "rules/remedies/remedy.hpp"

namespace tenth {

/// One fit of an engine as it would be after some change: the sizes that would count, and who goes with whom.
struct Setup {
  const Engine* engine;
  const Fit* fit;
  CountingMap counts;
  std::vector<Couple> couples;
  std::map<int, Length> tolerance = {};  ///< by outside index: of a size that is asked for, plus or minus

  const Feature& inside() const { return *engine->spec->find(fit->inside); }
  const Feature& outside() const { return *engine->spec->find(fit->outside); }
};
Setup setup_of(const Engine& engine, const Fit& fit);

/// A couple judged by the check's own code; a size asked for within a tolerance counts with its worst.
FitResult judged(const Setup& setup, const Couple& couple);
std::vector<FitResult> judged(const Setup& setup);

/// Every reading that the couple's fit needs is there.
bool complete(const Setup& setup, const Couple& couple);

/// The counting sizes at one index of a feature, or those of them that the fit uses.
std::vector<Length> sizes_at(const CountingMap& counts, std::span<const Place> places);
std::vector<Length> inside_sizes(const Setup& setup, const Couple& couple);

/// The inside part of a couple grows; `unsure` joins the uncertainty.
void grow_inside(Setup& setup, const Couple& couple, Length by, Length unsure = {});
/// An outside part has this size everywhere, or will have within a tolerance.
void set_outside(Setup& setup, int outside_index, Length size, Length tolerance = {});
/// Only what the couple's fit reads: cheap to copy.
Setup only(const Setup& setup, const Couple& couple);

/// What a fit's mean should come to: its target, else the middle of its limits; with one limit: nothing.
std::optional<Length> aim_of(const Fit& fit);
/// How far the mean lies from there; with one limit how far beyond it. No mean: nothing.
Length off_target(const Fit& fit, const FitResult& result);
/// Farther off than this is not told apart: no choice of parts mends it.
inline constexpr Length kFarOff = Length::from_mm(10);

/// Something needs to be done about it.
bool is_bad(std::optional<Verdict> verdict);

/// The figures of a remedy, from what the setup would give.
void fill_after(Remedy& remedy, const Setup& setup);
/// More in, or as many and nearer to the target.
bool better(const Remedy& remedy, const Setup& than);
bool better(const Remedy& a, const Remedy& b);

}  // namespace tenth
