#include <algorithm>

#include "rules/figure.hpp"
#include "rules/form.hpp"
#include "rules/uncertainty.hpp"

namespace tenth {
namespace {

/// More readings can only lower the smallest and raise the largest: what is out stays out.
void hold_size(Findings& findings, const Feature& feature, const Sample& sizes) {
  const Figure low{sizes.smallest(), sizes.complete(), false}, high{sizes.largest(), sizes.complete(), false};
  hold(findings, "size", low, feature.limits.lower, Side::lower, sizes.uncertainty);
  hold(findings, "size", high, feature.limits.upper, Side::upper, sizes.uncertainty);
}

/// A form is a difference of two readings, so the error of the master leaves it.
void hold_forms(Findings& findings, const Feature& feature, const Forms& forms, const Sample& sizes) {
  std::optional<Length> uncertainty;
  if (sizes.repeatability) uncertainty = root_sum_of_squares(*sizes.repeatability, *sizes.repeatability);
  if (forms.out_of_round)
    hold(findings, "out_of_round", *forms.out_of_round, feature.out_of_round, Side::upper, uncertainty);
  if (forms.taper) hold(findings, "taper", *forms.taper, feature.taper, Side::upper, uncertainty);
}

}  // namespace

bool lacks_setup(const FeatureResult& result) {
  return std::ranges::any_of(result.reasons, [](const Reason& reason) { return reason.what == "setup"; });
}

FeatureResult judge_feature(const Engine& engine, const CountingMap& counts, const Feature& feature, int index) {
  const Sample sizes = sample(counts, places_of(feature, index));
  const Forms of_form = forms(counts, feature, index);
  FeatureResult result;
  result.feature = feature.name;
  result.index = index;
  result.label = label_of(feature, index);
  result.stage = stage_of(engine, feature.name).name;
  result.carried = sizes.carried;
  result.mean = sizes.mean();
  result.min = sizes.smallest();
  result.max = sizes.largest();
  if (of_form.out_of_round) result.out_of_round = of_form.out_of_round->value;
  if (of_form.taper) result.taper = of_form.taper->value;
  result.out_of_round_by = feature.out_of_round_by;
  result.taper_by = feature.taper_by;
  result.readings = static_cast<int>(sizes.sizes.size());
  result.missing = sizes.missing;
  result.corrected = sizes.corrected;
  result.shape_asked = feature.shape;
  if (feature.shape) result.shape = shape_of(counts, feature, index);
  result.uncertainty = sizes.uncertainty;
  Findings findings;
  hold_size(findings, feature, sizes);
  hold_forms(findings, feature, of_form, sizes);
  if (findings.verdict && sizes.missing > 0) findings.verdict = worst(findings.verdict, Verdict::incomplete);
  hold_setup(findings, engine, feature);
  result.verdict = findings.verdict;
  result.reasons = std::move(findings.reasons);
  return result;
}

}  // namespace tenth
