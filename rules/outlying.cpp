#include "rules/outlying.hpp"

#include "rules/figure.hpp"
#include "rules/statistics/outliers.hpp"

namespace tenth {
namespace {

using Readings = std::vector<const Reading*>;

std::vector<double> numbers(const Readings& readings) {
  std::vector<double> values;
  for (const Reading* reading : readings) values.push_back(statistics::millimetres(*reading->size));
  return values;
}

std::vector<statistics::Farthest> found_among(const std::vector<double>& values) {
  constexpr std::size_t kLeast = 3, kMany = 15, kShare = 10;
  if (values.size() < kLeast) return {};
  if (values.size() < kMany) {
    const auto farthest = statistics::grubbs(values);
    return farthest && farthest->outlier ? std::vector{*farthest} : std::vector<statistics::Farthest>{};
  }
  auto outliers = statistics::generalized_esd(values, values.size() / kShare);
  if (!outliers) return {};
  outliers->steps.resize(outliers->count);
  return outliers->steps;
}

void add_outlying(std::vector<Outlying>& all, const Feature& feature, const Readings& kept) {
  for (const statistics::Farthest& far : found_among(numbers(kept))) {
    const Reading& reading = *kept[far.index];
    all.push_back({reading.seq, *reading.place, label_of(feature, reading.place->index), *reading.size,
                   static_cast<int>(kept.size()), far.distance, far.critical});
  }
}

}  // namespace

std::vector<Outlying> outlying(const Engine& engine) {
  std::map<Place, int> counts;
  for (const Reading& reading : engine.readings)
    if (reading.place) ++counts[*reading.place];
  std::vector<Outlying> all;
  for (const auto& [place, count] : counts)
    if (const Feature* const feature = engine.spec->find(place.feature); feature && count >= 3)
      add_outlying(all, *feature, kept_at(engine, place));
  return all;
}

}  // namespace tenth
