#include <algorithm>

#include "schema/spec/parts.hpp"

namespace tenth::spec_file {

namespace {

/// The rods of each pin by the positions of their cylinders, on the pin's seats front to rear.
std::vector<Couple> through_pins(const Layout& layout, const Names& seats) {
  std::vector<Couple> couples;
  for (std::size_t pin = 0; pin < layout.pins.size(); ++pin)
    for (std::size_t rod = 0; rod < layout.pins[pin].size(); ++rod) {
      const auto cylinder =
          std::find(layout.labels.begin(), layout.labels.end(), layout.pins[pin][rod]) - layout.labels.begin();
      couples.push_back(
          {static_cast<int>(cylinder) + 1, static_cast<int>(pin) + 1, seats.empty() ? "" : seats.at(rod)});
    }
  std::sort(couples.begin(), couples.end(),
            [](const Couple& a, const Couple& b) { return a.inside_index < b.inside_index; });
  return couples;
}

}  // namespace

bool share_pins(const Layout& layout, const Feature& inside, const Feature& outside) {
  return inside.count_by == CountBy::cylinders && outside.count_by == CountBy::crankpins && !layout.pins.empty();
}

std::vector<Couple> coupled(const Layout& layout, const Feature& inside, const Feature& outside, const Names& seats) {
  if (share_pins(layout, inside, outside)) return through_pins(layout, seats);
  std::vector<Couple> couples;
  for (int index = 1; index <= std::min(inside.count(), outside.count()); ++index)
    couples.push_back({index, index, ""});
  return couples;
}

}  // namespace tenth::spec_file
