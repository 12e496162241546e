#include "rules/form.hpp"

#include <algorithm>

namespace tenth {
namespace {

using Lengths = std::vector<Length>;

/// The sizes of one part by level and axis, as far as they are there; a feature without levels or axes has one of each.
class Grid {
 public:
  Grid(const CountingMap& counts, const Feature& feature, int index)
      : levels_(feature.levels.empty() ? kNameless : feature.levels),
        axes_(feature.axes.empty() ? kNameless : feature.axes) {
    for (const std::string& level : levels_)
      for (const std::string& axis : axes_) {
        const auto found = counts.find({feature.name, index, level, axis});
        sizes_.push_back(found == counts.end() ? std::nullopt : std::optional(found->second.size));
      }
  }

  std::size_t levels() const { return levels_.size(); }
  std::size_t axes() const { return axes_.size(); }
  std::optional<Length> at(std::size_t level, std::size_t axis) const { return sizes_[level * axes() + axis]; }

  Lengths along_level(std::size_t level) const {
    Lengths found;
    for (std::size_t axis = 0; axis < axes(); ++axis)
      if (const auto size = at(level, axis)) found.push_back(*size);
    return found;
  }
  Lengths along_axis(std::size_t axis) const {
    Lengths found;
    for (std::size_t level = 0; level < levels(); ++level)
      if (const auto size = at(level, axis)) found.push_back(*size);
    return found;
  }
  bool full(std::size_t level) const { return along_level(level).size() == axes(); }
  bool full() const {
    return std::ranges::all_of(sizes_, [](const auto& size) { return size.has_value(); });
  }
  bool ends_full() const { return full(0) && full(levels() - 1); }

 private:
  inline static const std::vector<std::string> kNameless = {""};
  const std::vector<std::string>& levels_;
  const std::vector<std::string>& axes_;
  std::vector<std::optional<Length>> sizes_;
};

/// Keeps the larger; a missing length does not count.
void raise(std::optional<Length>& most, std::optional<Length> length) {
  if (length && (!most || *most < *length)) most = length;
}

std::optional<Length> same_level(const Grid& grid) {
  std::optional<Length> most;
  for (std::size_t level = 0; level < grid.levels(); ++level) raise(most, range(grid.along_level(level)));
  return most;
}

std::optional<Length> across_levels(const Grid& grid) {
  std::optional<Length> most;
  for (std::size_t one = 0; one < grid.axes(); ++one)
    for (std::size_t other = 0; other < grid.axes(); ++other) {
      const Lengths a = grid.along_axis(one), b = grid.along_axis(other);
      if (one != other && !a.empty() && !b.empty()) raise(most, std::ranges::max(a) - std::ranges::min(b));
    }
  return most;
}

std::optional<Length> along_axis(const Grid& grid) {
  std::optional<Length> most;
  for (std::size_t axis = 0; axis < grid.axes(); ++axis) raise(most, range(grid.along_axis(axis)));
  return most;
}

std::optional<Length> ends(const Grid& grid) {
  std::optional<Length> most;
  for (std::size_t axis = 0; axis < grid.axes(); ++axis) {
    const auto first = grid.at(0, axis), last = grid.at(grid.levels() - 1, axis);
    if (first && last) raise(most, (*first - *last).magnitude());
  }
  return most;
}

std::optional<Length> pairs(const Grid& grid) {
  const Lengths first = grid.along_level(0), last = grid.along_level(grid.levels() - 1);
  if (first.empty() || last.empty()) return std::nullopt;
  return (std::ranges::max(first) - std::ranges::max(last)).magnitude();
}

std::optional<Length> level_means(const Grid& grid) {
  Lengths means;
  for (std::size_t level = 0; level < grid.levels(); ++level)
    if (const Lengths sizes = grid.along_level(level); !sizes.empty()) means.push_back(mean(sizes));
  return range(means);
}

Figure out_of_round(const Grid& grid, OutOfRoundBy by) {
  return {by == OutOfRoundBy::same_level ? same_level(grid) : across_levels(grid), grid.full(), false};
}

/// More readings can only raise a difference along an axis; they can lower one of means or of largest readings.
Figure taper(const Grid& grid, TaperBy by) {
  switch (by) {
    case TaperBy::ends:
      return {ends(grid), grid.ends_full(), false};
    case TaperBy::pairs:
      return {pairs(grid), grid.ends_full(), true};
    case TaperBy::level_means:
      return {level_means(grid), grid.full(), true};
    case TaperBy::along_axis:
      break;
  }
  return {along_axis(grid), grid.full(), false};
}

}  // namespace

Forms forms(const CountingMap& counts, const Feature& feature, int index) {
  const Grid grid(counts, feature, index);
  Forms result;
  if (grid.axes() >= 2) result.out_of_round = out_of_round(grid, feature.out_of_round_by);
  if (grid.levels() >= 2) result.taper = taper(grid, feature.taper_by);
  return result;
}

}  // namespace tenth
