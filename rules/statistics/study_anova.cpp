#include <algorithm>
#include <cmath>

#include "rules/statistics/study.hpp"
#include "rules/statistics/study_shares.hpp"
#include "rules/statistics/variance_interval.hpp"

namespace tenth::statistics {
namespace {

/// The counts as the formulas take them: p parts, o operators, r trials.
struct Design {
  double p = 0, o = 0, r = 0;
};

Design design_of(const Crossed& study) {
  return {static_cast<double>(study.parts()), static_cast<double>(study.operators()),
          static_cast<double>(study.trials())};
}

/// Means as differences from the study's mean, and the squares within the cells.
struct Means {
  std::vector<double> parts, operators, cells;  ///< cells by part, then operator
  double squares_within = 0;
};

Means means_of(const Crossed& study) {
  const double middle = summarize(study.all()).mean;
  Means means;
  Sum within;
  for (std::size_t by = 0; by < study.operators(); ++by)
    means.operators.push_back(summarize(study.of_operator(by)).mean - middle);
  for (std::size_t part = 0; part < study.parts(); ++part) {
    means.parts.push_back(summarize(study.of_part(part)).mean - middle);
    for (std::size_t by = 0; by < study.operators(); ++by) {
      const Summary cell = summarize(study.cell(part, by));
      means.cells.push_back(cell.mean - middle);
      within.add(cell.squares);
    }
  }
  means.squares_within = within.value();
  return means;
}

double squares(const std::vector<double>& differences) {
  Sum sum;
  for (const double x : differences) sum.add(x * x);
  return sum.value();
}

/// What is left of the cells' means when those of their part and operator are taken off.
std::vector<double> interactions(const Means& means) {
  std::vector<double> left;
  for (std::size_t i = 0; i < means.cells.size(); ++i)
    left.push_back(means.cells[i] - means.parts[i / means.operators.size()] -
                   means.operators[i % means.operators.size()]);
  return left;
}

/// The weights of the four mean squares in one component.
struct Weights {
  double parts = 0, operators = 0, interaction = 0, repeatability = 0;
};

/// One model: its mean squares, and the error that parts and operators are held against.
struct Model {
  Source parts, operators, interaction, repeatability, error;
};

Component component(const Model& model, const Weights& weights) {
  std::vector<WeightedSquare> terms;
  for (const auto& [source, weight] :
       {std::pair(&model.parts, weights.parts), std::pair(&model.operators, weights.operators),
        std::pair(&model.interaction, weights.interaction), std::pair(&model.repeatability, weights.repeatability)})
    if (weight != 0) terms.push_back({weight, source->mean_square(), source->freedom});
  Component c;
  for (const WeightedSquare& term : terms) c.computed += term.weight * term.mean_square;
  c.variance = std::max(0.0, c.computed);
  c.interval = variance_interval(terms);
  return c;
}

/// Wholes from their parts as they count, and every share.
void sum_up(Components& all, std::optional<double> tolerance) {
  all.grr.variance = all.ev.variance + all.av.variance + all.iv.variance;
  all.tv.variance = all.grr.variance + all.pv.variance;
  const double total = std::sqrt(all.tv.variance);
  for (Component* c : {&all.ev, &all.av, &all.iv, &all.grr, &all.pv, &all.tv})
    c->share = share(std::sqrt(c->variance), total, tolerance);
  all.categories = distinct_categories(all.pv.share.sigma, all.grr.share.sigma);
}

/// What each mean square is expected to be gives the weights: E + r I + o r P for
/// parts, E + r I + p r O for operators, E + r I for the interaction, E for repeatability.
Components with_interaction(const Model& model, const Crossed& study) {
  const auto [p, o, r] = design_of(study);
  Components all;
  all.ev = component(model, {0, 0, 0, 1});
  all.iv = component(model, {0, 0, 1 / r, -1 / r});
  all.av = component(model, {0, 1 / (p * r), -1 / (p * r), 0});
  all.pv = component(model, {1 / (o * r), 0, -1 / (o * r), 0});
  all.grr = component(model, {0, 1 / (p * r), (p - 1) / (p * r), (r - 1) / r});
  all.tv = component(model, {1 / (o * r), 1 / (p * r), (o * p - o - p) / (o * p * r), (r - 1) / r});
  return all;
}

/// The same with no interaction: E + o r P, E + p r O, and E, which is the pooled mean square.
Components without_interaction(const Model& model, const Crossed& study) {
  const auto [p, o, r] = design_of(study);
  Components all;
  all.ev = component(model, {0, 0, 0, 1});
  all.av = component(model, {0, 1 / (p * r), 0, -1 / (p * r)});
  all.pv = component(model, {1 / (o * r), 0, 0, -1 / (o * r)});
  all.grr = component(model, {0, 1 / (p * r), 0, (p * r - 1) / (p * r)});
  all.tv = component(model, {1 / (o * r), 1 / (p * r), 0, (o * p * r - o - p) / (o * p * r)});
  return all;
}

void finish(Components& all, const Model& model, std::optional<double> tolerance) {
  all.parts_test = model.parts;
  all.operators_test = model.operators;
  test_against(all.parts_test, model.error);
  test_against(all.operators_test, model.error);
  sum_up(all, tolerance);
}

/// The sums of squares and degrees of freedom.
StudyAnova table(const Crossed& study) {
  const Means means = means_of(study);
  const auto [p, o, r] = design_of(study);
  const Summary whole = summarize(study.all());
  const auto source = [&](double freedom, double sum) {
    return Source{freedom, scatter(sum, whole.count, study.largest()), {}, {}};
  };
  StudyAnova result;
  result.parts = source(p - 1, o * r * squares(means.parts));
  result.operators = source(o - 1, p * r * squares(means.operators));
  result.interaction = source((p - 1) * (o - 1), r * squares(interactions(means)));
  result.repeatability = source(o * p * (r - 1), means.squares_within);
  result.pooled = {result.interaction.freedom + result.repeatability.freedom,
                   result.interaction.squares + result.repeatability.squares,
                   {},
                   {}};
  result.total = {o * p * r - 1, whole.squares, {}, {}};
  return result;
}

}  // namespace

StudyAnova study_anova(const Crossed& study, std::optional<double> tolerance) {
  constexpr double kPoolAbove = 0.25;
  StudyAnova result = table(study);
  test_against(result.interaction, result.repeatability);
  result.pool = result.interaction.squares == 0 || (result.interaction.p && *result.interaction.p > kPoolAbove);
  const Model full{result.parts, result.operators, result.interaction, result.repeatability, result.interaction};
  const Model pooled{result.parts, result.operators, {}, result.pooled, result.pooled};
  result.with_interaction = with_interaction(full, study);
  finish(result.with_interaction, full, tolerance);
  result.without = without_interaction(pooled, study);
  finish(result.without, pooled, tolerance);
  return result;
}

}  // namespace tenth::statistics
