#include "rules/shape.hpp"

#include "rules/figure.hpp"

namespace tenth {
namespace {

Shape named_by(Length taper, Length belly) {
  if (belly.magnitude() > taper.magnitude()) return belly > Length() ? Shape::barrel : Shape::waist;
  if (taper == Length()) return Shape::straight;
  return taper > Length() ? Shape::last_wider : Shape::first_wider;
}

}  // namespace

std::optional<FoundShape> shape_of(const CountingMap& counts, const Feature& feature, int index) {
  if (feature.levels.size() < 2) return std::nullopt;
  std::vector<Length> first, between, last;
  for (const Place& place : places_of(feature, index)) {
    const auto here = counts.find(place);
    if (here == counts.end()) return std::nullopt;
    auto& row = place.level == feature.levels.front() ? first : place.level == feature.levels.back() ? last : between;
    row.push_back(here->second.size);
  }
  FoundShape found;
  found.taper = mean(last) - mean(first);
  if (!between.empty()) {
    first.insert(first.end(), last.begin(), last.end());
    found.belly = mean(between) - mean(first);
  }
  found.shape = named_by(found.taper, found.belly.value_or(Length()));
  return found;
}

}  // namespace tenth
