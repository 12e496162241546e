#include "rules/figure.hpp"

#include <algorithm>
#include <utility>

#include "rules/uncertainty.hpp"

namespace tenth {
namespace {

/// From part of the readings a figure may be out, never in.
Verdict verdict_of(const Figure& figure, Length limit, Side side, std::optional<Length> uncertainty) {
  if (!figure.value) return Verdict::incomplete;
  const Verdict verdict = zone(*figure.value, limit, side, uncertainty);
  if (figure.complete || (verdict == Verdict::out && !figure.may_heal)) return verdict;
  return Verdict::incomplete;
}

}  // namespace

const std::string& label_of(const Feature& feature, int index) {
  return feature.labels[static_cast<std::size_t>(index - 1)];
}

std::optional<Length> Sample::smallest() const {
  if (sizes.empty()) return std::nullopt;
  return std::ranges::min(sizes);
}

std::optional<Length> Sample::largest() const {
  if (sizes.empty()) return std::nullopt;
  return std::ranges::max(sizes);
}

std::optional<Length> Sample::mean() const {
  if (sizes.empty()) return std::nullopt;
  return tenth::mean(sizes);
}

Sample sample(const CountingMap& counts, std::span<const Place> places) {
  Sample result;
  for (const Place& place : places) {
    const auto found = counts.find(place);
    if (found == counts.end()) {
      ++result.missing;
      continue;
    }
    const Counting& here = found->second;
    const bool first = result.sizes.empty();
    result.uncertainty = first ? here.uncertainty : larger(result.uncertainty, here.uncertainty);
    result.repeatability = first ? here.repeatability : larger(result.repeatability, here.repeatability);
    result.sizes.push_back(here.size);
    result.as_read.push_back(here.as_read);
    result.corrected = here.corrected;  // the same along an index
    result.within = std::max(result.within, here.within);
    result.carried = result.carried || here.carried;
  }
  return result;
}

std::optional<Length> range(std::span<const Length> lengths) {
  if (lengths.size() < 2) return std::nullopt;
  const auto [least, most] = std::ranges::minmax(lengths);
  return most - least;
}

void hold_setup(Findings& findings, const Engine& engine, const Feature& feature) {
  if (!findings.verdict || is_set_up(engine, feature)) return;
  findings.verdict = worst(findings.verdict, Verdict::incomplete);
  findings.reasons.push_back({"setup", std::nullopt, std::nullopt, std::nullopt, Verdict::incomplete});
}

void hold(Findings& findings, std::string what, const Figure& figure, std::optional<Length> limit, Side side,
          std::optional<Length> uncertainty) {
  if (!limit) return;
  const Verdict verdict = verdict_of(figure, *limit, side, uncertainty);
  findings.verdict = worst(findings.verdict, verdict);
  if (verdict == Verdict::in) return;
  const auto after = std::ranges::find_if(findings.reasons, [&](const Reason& r) { return r.verdict < verdict; });
  findings.reasons.insert(after, {std::move(what), figure.value, limit, side, verdict});
}

}  // namespace tenth
