#include <algorithm>

#include "rules/remedies/offer.hpp"
#include "rules/remedies/words.hpp"
#include "rules/ring.hpp"

namespace tenth {
namespace {

/// The gaps of one feature and what is done about them.
class Gaps {
 public:
  Gaps(const Engine& engine, const Feature& feature, Obstacles& obstacles)
      : engine_(engine), feature_(feature), obstacles_(obstacles), counts_(counting(engine)) {
    for (int index = 1; index <= feature.count(); ++index)
      now_.push_back(judge_feature(engine, counts_, feature, index));
  }

  /// Files what is too small, up to the middle of its limits.
  std::optional<Remedy> file() {
    Remedy remedy;
    CountingMap after = counts_;
    for (const FeatureResult& gap : now_)
      if (const auto growth = wanted(gap)) {
        change(after, gap.index, *growth);
        remedy.cuts.push_back(
            {gap.index, gap.label, *gap.mean, *gap.mean + *growth, *gap.mean + *growth, *gap.mean + *growth, *growth});
      }
    if (remedy.cuts.empty()) return std::nullopt;
    fill(remedy, after);
    remedy.kind = RemedyKind::file;
    remedy.undo = Undo::never;
    remedy.text = words_of_cutting(remedy, "file", engine_.spec->unit);
    remedy.cautions = {"file one end only, square, and check the gap in its own bore"};
    return remedy;
  }

  /// A spare for each gap that is not in, as far as the stock has any that fits.
  std::optional<Remedy> replace(const Stock& stock) {
    Remedy remedy;
    CountingMap after = counts_;
    std::map<std::string, int> used;
    for (const FeatureResult& gap : now_) {
      if (!is_bad(gap.verdict) || !gap.mean) continue;
      if (const SparePart* part = nearest(stock, used)) {
        ++used[part->id];
        change(after, gap.index, part->size - *gap.mean);
        remedy.takes.push_back({gap.index, gap.label, gap.index, 0, part->id});
      }
    }
    if (remedy.takes.empty()) return std::nullopt;
    fill(remedy, after);
    remedy.kind = RemedyKind::part;
    remedy.undo = Undo::part;
    remedy.moved = static_cast<int>(remedy.takes.size());
    for (const TakeStep& step : remedy.takes)
      remedy.text += (remedy.text.empty() ? "" : "; ") + feature_.name + " " + step.label + " gets " + step.part;
    remedy.cautions = {"check the gap in its own bore"};
    return remedy;
  }

 private:
  /// How much to file off; none where that cannot help.
  std::optional<Length> wanted(const FeatureResult& gap) {
    if (!is_bad(gap.verdict) || gap.missing > 0) return std::nullopt;
    const Length growth = gap_aim(feature_) - *gap.mean;
    if (feature_.limits.upper && *gap.max > *feature_.limits.upper) {
      obstruct(gap, "it is " + past(*gap.max - *feature_.limits.upper) +
                        " over its upper limit, and a gap cannot be closed: only another part helps");
      return std::nullopt;
    }
    if (growth <= Length()) return std::nullopt;
    if (!feature_.limits.upper || *gap.max + growth <= *feature_.limits.upper) return growth;
    obstruct(gap, "its readings lie " + past(*gap.max - *gap.min) +
                      " apart: filing to the middle would leave the upper limit");
    return std::nullopt;
  }

  std::string past(Length length) const { return both_units(length, engine_.spec->unit); }

  void obstruct(const FeatureResult& gap, const std::string& why) {
    obstacles_.push_back({{"", feature_.name, gap.index, why}, Undo::never});
  }

  void change(CountingMap& counts, int index, Length by) const {
    for (const Place& place : places_of(feature_, index))
      if (const auto found = counts.find(place); found != counts.end()) found->second.size = found->second.size + by;
  }

  /// The spare within the limits that is nearest to their middle and not used yet.
  const SparePart* nearest(const Stock& stock, const std::map<std::string, int>& used) const {
    const SparePart* best = nullptr;
    for (const SparePart& part : stock.parts) {
      const auto taken = used.find(part.id);
      const bool here = part.feature == feature_.name && (taken == used.end() ? 0 : taken->second) < part.count;
      const bool low = feature_.limits.lower && part.size < *feature_.limits.lower;
      const bool high = feature_.limits.upper && part.size > *feature_.limits.upper;
      if (!here || low || high) continue;
      if (best == nullptr || (part.size - gap_aim(feature_)).magnitude() < (best->size - gap_aim(feature_)).magnitude())
        best = &part;
    }
    return best;
  }

  void fill(Remedy& remedy, const CountingMap& counts) const {
    remedy.feature = feature_.name;
    for (const FeatureResult& before : now_) {
      const FeatureResult gap = judge_feature(engine_, counts, feature_, before.index);
      remedy.after.push_back({gap.index, gap.min, gap.mean, gap.max, gap.uncertainty, gap.verdict});
      remedy.in += gap.verdict == Verdict::in ? 1 : 0;
      if (gap.mean) remedy.off_target = remedy.off_target + (*gap.mean - gap_aim(feature_)).magnitude();
    }
    remedy.of = feature_.count();
    remedy.enough = remedy.in == remedy.of;
  }

  const Engine& engine_;
  const Feature& feature_;
  Obstacles& obstacles_;
  CountingMap counts_;
  std::vector<FeatureResult> now_;
};

}  // namespace

std::vector<Remedy> gaps(const Engine& engine, const Feature& feature, const Stock* stock, Obstacles& obstacles) {
  Gaps gaps(engine, feature, obstacles);
  std::vector<Remedy> result;
  if (auto remedy = gaps.file()) result.push_back(*std::move(remedy));
  if (stock != nullptr)
    if (auto remedy = gaps.replace(*stock)) result.push_back(*std::move(remedy));
  return result;
}

}  // namespace tenth
