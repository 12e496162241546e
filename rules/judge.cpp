#include "rules/judge.hpp"

#include <algorithm>

#include "rules/couples.hpp"
#include "rules/figure.hpp"
#include "rules/names.hpp"

namespace tenth {
namespace {

constexpr Names<Verdict, 4> kVerdicts{{"in", "doubtful", "incomplete", "out"}};
constexpr Names<Side, 2> kSides{{"lower", "upper"}};
constexpr Names<Corrected, 4> kCorrected{{"none", "inside", "outside", "both"}};
constexpr Names<Answer, 4> kAnswers{{"yes", "no", "later", "n/a"}};

/// A check that does not apply leaves nothing to judge.
std::optional<Verdict> verdict_of(Answer answer) {
  switch (answer) {
    case Answer::yes:
      return Verdict::in;
    case Answer::no:
      return Verdict::out;
    case Answer::later:
      return Verdict::incomplete;
    case Answer::not_applicable:
      break;
  }
  return std::nullopt;
}

CheckResult judge_check(const Engine& engine, const Feature& feature, int index) {
  CheckResult result{feature.name, index, label_of(feature, index), {}, {}, Verdict::incomplete};
  if (const auto found = engine.answers.find({feature.name, index}); found != engine.answers.end()) {
    result.answer = found->second.answer;
    result.note = found->second.note;
    result.verdict = verdict_of(found->second.answer);
  }
  return result;
}

template <class Results>
void count_in(std::optional<Verdict>& whole, const Results& results) {
  for (const auto& result : results) whole = worst(whole, result.verdict);
}

}  // namespace

Verdict zone(Length figure, Length limit, Side side, std::optional<Length> u) {
  const Length unsure = u.value_or(Length());
  const Length beyond = side == Side::upper ? figure - limit : limit - figure;
  if (beyond > unsure) return Verdict::out;
  return beyond <= -unsure ? Verdict::in : Verdict::doubtful;
}

std::optional<Verdict> worst(std::optional<Verdict> a, std::optional<Verdict> b) {
  if (!a || !b) return a ? a : b;
  return std::max(*a, *b);
}

Report judge(const Engine& engine) {
  Report report;
  report.counts = counting(engine);
  const CountingMap& counts = report.counts;
  report.engine = engine.name;
  report.spec_seq = engine.spec_seq;
  for (const Feature& feature : engine.spec->features)
    for (int index = 1; index <= feature.count(); ++index)
      if (feature.kind == Kind::check)
        report.checks.push_back(judge_check(engine, feature, index));
      else
        report.features.push_back(judge_feature(engine, counts, feature, index));
  for (const Fit& fit : engine.spec->fits)
    for (const Couple& couple : couples_of(engine, fit)) report.fits.push_back(judge_fit(engine, counts, fit, couple));
  for (const Spread& spread : engine.spec->spreads) report.spreads.push_back(judge_spread(engine, counts, spread));
  count_in(report.verdict, report.features);
  count_in(report.verdict, report.fits);
  count_in(report.verdict, report.spreads);
  count_in(report.verdict, report.checks);
  return report;
}

std::string_view name(Verdict verdict) {
  return kVerdicts.of(verdict);
}
std::string_view name(Side side) {
  return kSides.of(side);
}
std::string_view name(Corrected corrected) {
  return kCorrected.of(corrected);
}
std::string_view name(Answer answer) {
  return kAnswers.of(answer);
}

std::optional<Answer> answer_from(std::string_view word) {
  return kAnswers.find(word);
}

}  // namespace tenth
