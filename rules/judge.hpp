#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rules/engine.hpp"
#include "rules/shape.hpp"

namespace tenth {

/// In order of badness from good to bad; a whole is its worst part.
enum class Verdict { in, doubtful, incomplete, out };
enum class Side { lower, upper };
/// Which sides of a fit are at 20 °C.
enum class Corrected { none, inside, outside, both };

/// One figure held against one limit. `what` is `size`, `out_of_round`, `taper`, `clearance` or `spread`; or `setup`
/// without figures, where what must be done first was not said.
struct Reason {
  std::string what;
  std::optional<Length> value, limit;
  std::optional<Side> side;
  Verdict verdict = Verdict::in;
};

struct FeatureResult {
  std::string feature;
  int index = 0;
  std::string label, stage;
  bool carried = false;
  std::optional<Length> mean, min, max, out_of_round, taper;
  OutOfRoundBy out_of_round_by = OutOfRoundBy::same_level;
  TaperBy taper_by = TaperBy::along_axis;
  int readings = 0, missing = 0;  ///< places
  bool corrected = false;         ///< the sizes are those at 20 °C
  std::optional<Shape> shape_asked;
  std::optional<FoundShape> shape;  ///< where one is asked for; has no verdict
  std::optional<Length> uncertainty;
  std::optional<Verdict> verdict;  ///< empty: nothing to judge, or no limit at all
  std::vector<Reason> reasons;
};

struct FitResult {
  std::string fit;
  int index = 0, outside_index = 0;
  std::string label, outside_label, inside_stage, outside_stage;
  std::optional<Length> min, mean, max, lower, upper, target, uncertainty;
  Corrected corrected = Corrected::none;
  std::optional<double> probability;  ///< of conforming, JCGM 106; empty where no uncertainty is stated
  std::optional<Verdict> verdict;
  std::vector<Reason> reasons;
};

struct SpreadResult {
  std::string feature;
  std::optional<Length> spread, uncertainty;
  Length limit;
  std::optional<Verdict> verdict;
};

struct CheckResult {
  std::string feature;
  int index = 0;
  std::string label;
  std::optional<Answer> answer;
  std::string note;
  std::optional<Verdict> verdict;
};

/// Every feature, form, fit, spread and check of an engine, with its verdict.
struct Report {
  std::string engine;
  std::int64_t spec_seq = 0;
  std::vector<FeatureResult> features;
  std::vector<FitResult> fits;
  std::vector<SpreadResult> spreads;
  std::vector<CheckResult> checks;
  std::optional<Verdict> verdict;
  CountingMap counts;  ///< what the figures are made of
};

/// The zones of ISO 14253-1 for one figure and one limit: `out` beyond the limit by more than `u`, `in` inside it by at
/// least `u`, else `doubtful`. Limits are inclusive; no stated uncertainty counts as 0.
Verdict zone(Length figure, Length limit, Side side, std::optional<Length> u);

/// The worst of two; an absent one does not count.
std::optional<Verdict> worst(std::optional<Verdict> a, std::optional<Verdict> b);

Report judge(const Engine& engine);
FeatureResult judge_feature(const Engine& engine, const CountingMap& counts, const Feature& feature, int index);
/// What must be done before the feature counts was not said to be done.
bool lacks_setup(const FeatureResult& result);
FitResult judge_fit(const Engine& engine, const CountingMap& counts, const Fit& fit, const Couple& couple);
SpreadResult judge_spread(const Engine& engine, const CountingMap& counts, const Spread& spread);

std::string_view name(Verdict);
std::string_view name(Side);
std::string_view name(Corrected);
std::string_view name(Answer);
std::optional<Answer> answer_from(std::string_view word);

}  // namespace tenth
