#include "rules/remedies/collector.hpp"

#include <algorithm>
#include <numeric>
#include <tuple>

namespace tenth {
namespace {

constexpr std::string_view kNever = "Cannot be undone: ";

/// The second of two changes by itself: both kinds of second change the inside parts alone.
Setup alone(const Setup& before, const Setup& after) {
  Setup result = before;
  for (const auto& [place, counting] : after.counts)
    if (place.feature == before.fit->inside) result.counts[place] = counting;
  return result;
}

std::string without_never(const std::string& text) {
  return text.starts_with(kNever) ? text.substr(kNever.size()) : text;
}

}  // namespace

void Collector::add(Remedy remedy) {
  entries_.push_back({std::move(remedy), {}, {}});
}

std::size_t Collector::find_or_add(const Remedy& remedy) {
  const auto same = [&](const Entry& entry) {
    return entry.remedy.fit == remedy.fit && entry.remedy.kind == remedy.kind && entry.remedy.cuts == remedy.cuts &&
           entry.remedy.takes == remedy.takes && entry.remedy.halves == remedy.halves && !entry.after;
  };
  const auto found = std::ranges::find_if(entries_, same);
  if (found != entries_.end()) return static_cast<std::size_t>(found - entries_.begin());
  add(remedy);
  return entries_.size() - 1;
}

void Collector::add_both(const Setup& setup, const Offer& first, const Offer& second) {
  Remedy both;
  fill_after(both, second.after);
  if (!better(both, setup)) return;
  both.kind = RemedyKind::combined;
  both.undo = std::max(first.remedy.undo, second.remedy.undo);
  both.moved = first.remedy.moved + second.remedy.moved;
  both.text = (both.undo == Undo::never ? std::string(kNever) : "") + without_never(first.remedy.text) + "; then " +
              without_never(second.remedy.text);
  both.cautions = first.remedy.cautions;
  for (const std::string& caution : second.remedy.cautions)
    if (std::ranges::find(both.cautions, caution) == both.cautions.end()) both.cautions.push_back(caution);
  Remedy then = second.remedy;
  fill_after(then, alone(setup, second.after));
  const std::size_t before = find_or_add(first.remedy);
  entries_.push_back({std::move(then), {}, before});
  entries_.push_back({std::move(both), {before, entries_.size() - 1}, {}});
}

bool Collector::has_enough(const std::string& fit, const std::string& feature, Undo undo) const {
  return std::ranges::any_of(entries_, [&](const Entry& entry) {
    const Remedy& remedy = entry.remedy;
    return remedy.enough && remedy.undo <= undo && remedy.fit == fit && (!fit.empty() || remedy.feature == feature);
  });
}

bool Collector::grinds(const std::string& feature, int index) const {
  return std::ranges::any_of(entries_, [&](const Entry& entry) {
    const Remedy& remedy = entry.remedy;
    return remedy.enough && remedy.kind == RemedyKind::grind && remedy.feature == feature &&
           std::ranges::find(remedy.cuts, index, &CutStep::index) != remedy.cuts.end();
  });
}

bool Collector::has_any(const std::string& fit) const {
  return std::ranges::any_of(entries_, [&](const Entry& entry) { return entry.remedy.fit == fit; });
}

std::vector<std::size_t> Collector::order() const {
  std::vector<std::size_t> order(entries_.size());
  std::iota(order.begin(), order.end(), 0U);
  std::ranges::sort(order, {}, [&](std::size_t number) {
    const Remedy& remedy = entries_[number].remedy;
    const auto same_fit = [&](const Entry& entry) { return entry.remedy.fit == remedy.fit; };
    const auto fit = std::ranges::find_if(entries_, same_fit) - entries_.begin();
    return std::tuple(!remedy.enough, remedy.undo, fit, -remedy.in, remedy.off_target, number);
  });
  return order;
}

RemedyList Collector::ranked() && {
  RemedyList list;
  for (Obstacle& each : obstacles)
    if (!has_enough(each.none.fit, each.none.feature, each.undo)) list.none.push_back(std::move(each.none));
  const std::vector<std::size_t> order = this->order();
  for (std::size_t i = 0; i < order.size(); ++i) entries_[order[i]].remedy.id = "r" + std::to_string(i + 1);
  for (const std::size_t number : order) {
    Entry& entry = entries_[number];
    for (const std::size_t part : entry.parts) entry.remedy.parts.push_back(entries_[part].remedy.id);
    if (entry.after)
      entry.remedy.cautions.insert(entry.remedy.cautions.begin(), "only after " + entries_[*entry.after].remedy.id);
  }
  for (const std::size_t number : order) list.remedies.push_back(std::move(entries_[number].remedy));
  return list;
}

}  // namespace tenth
