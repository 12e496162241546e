#include <algorithm>
#include <set>

#include "rules/figure.hpp"
#include "rules/fit.hpp"
#include "rules/remedies/assignment.hpp"
#include "rules/remedies/offer.hpp"
#include "rules/remedies/words.hpp"

namespace tenth {
namespace {

/// An outside part to be had: that of a position, or a spare.
struct Part {
  int outside_index = 0;
  const SparePart* spare = nullptr;
};

class Matching {
 public:
  Matching(const Setup& setup, const Stock* spares) : setup_(setup) {
    std::set<int> held;  // by couples that are not measured: these stay
    for (const Couple& couple : setup.couples)
      if (inside_complete(couple))
        rows_.push_back(couple);
      else
        held.insert(couple.outside_index);
    for (int index = 1; index <= setup.outside().count(); ++index) {
      if (held.contains(index)) continue;
      positions_.insert(index);
      if (measured(index)) parts_.push_back({index, nullptr});
    }
    if (spares == nullptr) return;
    for (const SparePart& spare : spares->parts)
      if (spare.feature == setup.fit->outside)
        for (int i = 0; i < std::min(spare.count, static_cast<int>(rows_.size())); ++i) parts_.push_back({0, &spare});
  }

  /// Only one inside part to each outside part can be matched, and only if there are parts enough.
  bool possible() const {
    std::set<int> outsides;
    for (const Couple& couple : setup_.fit->couples) outsides.insert(couple.outside_index);
    return outsides.size() == setup_.fit->couples.size() && !rows_.empty() && parts_.size() >= rows_.size();
  }

  std::optional<Offer> best() {
    CostMatrix costs(rows_.size(), parts_.size());
    for (std::size_t row = 0; row < rows_.size(); ++row)
      for (std::size_t column = 0; column < parts_.size(); ++column) costs.at(row, column) = cost(row, parts_[column]);
    const auto assigned = assign(costs);
    if (!assigned) return std::nullopt;
    std::set<int> open = positions_;  // of parts that nobody takes: a spare stands in for one of them
    for (const std::size_t column : assigned->column_of) open.erase(parts_[column].outside_index);
    Offer offer{{}, setup_};
    for (std::size_t row = 0; row < rows_.size(); ++row)
      give(offer, rows_[row], parts_[assigned->column_of[row]], open);
    return offer;
  }

 private:
  bool inside_complete(const Couple& couple) const {
    const auto places = places_of_fit(*setup_.engine->spec, *setup_.fit, couple).inside;
    return inside_sizes(setup_, couple).size() == places.size();
  }

  bool measured(int outside_index) const {
    Couple couple = rows_.empty() ? Couple{1, 0, ""} : rows_.front();
    couple.outside_index = outside_index;
    return complete(setup_, couple);
  }

  FitResult result(const Couple& row, const Part& part) const {
    if (part.spare == nullptr) return judged(setup_, {row.inside_index, part.outside_index, row.outside_level});
    const Couple couple{row.inside_index, std::max(row.outside_index, 1), row.outside_level};
    Setup changed = only(setup_, couple);
    set_outside(changed, couple.outside_index, part.spare->size);
    return judged(changed, couple);
  }

  bool stays(const Couple& row, const Part& part) const {
    return part.spare == nullptr && part.outside_index == row.outside_index;
  }

  /// The aims as one number: not in, then off target, then moved.
  std::int64_t cost(std::size_t row, const Part& part) const {
    const auto rows = static_cast<std::int64_t>(rows_.size());
    const FitResult here = result(rows_[row], part);
    const std::int64_t failing = here.verdict == Verdict::in ? 0 : rows * kFarOff.pm() + 1;
    const std::int64_t off = std::min(off_target(*setup_.fit, here), kFarOff).pm();
    return (failing + off) * (rows + 1) + (stays(rows_[row], part) ? 0 : 1);
  }

  void give(Offer& offer, const Couple& row, const Part& part, std::set<int>& open) const {
    if (stays(row, part)) return;
    Couple& couple = *std::ranges::find(offer.after.couples, row.inside_index, &Couple::inside_index);
    const std::string& label = label_of(setup_.inside(), row.inside_index);
    if (part.spare == nullptr) {
      couple.outside_index = part.outside_index;
      offer.remedy.takes.push_back({row.inside_index, label, row.outside_index, part.outside_index, ""});
    } else {
      couple.outside_index = open.contains(row.outside_index) ? row.outside_index : *open.begin();
      open.erase(couple.outside_index);
      set_outside(offer.after, couple.outside_index, part.spare->size);
      offer.remedy.takes.push_back({row.inside_index, label, row.outside_index, 0, part.spare->id});
    }
  }

  const Setup& setup_;
  std::vector<Couple> rows_;
  std::vector<Part> parts_;
  std::set<int> positions_;  ///< outside indices that are not held
};

}  // namespace

std::optional<Offer> match(const Setup& setup, const Stock* spares, Obstacles& obstacles) {
  Matching matching(setup, spares);
  if (!matching.possible()) return std::nullopt;
  auto offer = matching.best();
  if (!offer) return std::nullopt;
  Remedy& remedy = offer->remedy;
  fill_after(remedy, offer->after);
  const auto spare = [](const TakeStep& step) { return !step.part.empty(); };
  remedy.kind = std::ranges::all_of(remedy.takes, spare) ? RemedyKind::part : RemedyKind::match;
  remedy.undo = std::ranges::any_of(remedy.takes, spare) ? Undo::part : Undo::free;
  remedy.moved = static_cast<int>(remedy.takes.size());
  remedy.text = words_of_match(remedy, setup);
  remedy.cautions = {"mark what goes where before it is taken apart"};
  for (const Couple& couple : offer->after.couples)
    if (const FitResult result = judged(offer->after, couple); is_bad(result.verdict))
      obstacles.push_back({{setup.fit->name, "", couple.inside_index,
                            "no " + setup.fit->outside + (spares ? " of the engine or the stock" : " of the engine") +
                                " brings it in: the best leaves it " + still_bad(result, offer->after)},
                           spares ? Undo::part : Undo::free});
  if (!better(remedy, setup)) return std::nullopt;
  return offer;
}

}  // namespace tenth
