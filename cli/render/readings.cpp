#include "cli/render/readings.hpp"

#include <algorithm>
#include <ostream>

#include "cli/render/mark.hpp"
#include "cli/render/text.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

constexpr std::size_t kPlaceColumns = 28;

Unit unit_of(const Context& context, const Json& reading) {
  return context.unit_for(reading.value("unit", Json()));
}

/// The decimals of the whole column, so that tenths stand below tenths.
int places_of(const Context& context, const Json& readings, Unit unit) {
  std::vector<Length> sizes;
  for (const auto& reading : readings)
    if (const auto size = length(reading, "size_mm"); size && unit_of(context, reading) == unit) sizes.push_back(*size);
  return places_for(sizes, unit);
}

std::string remark(const Json& reading) {
  std::vector<std::string> words = texts(reading, "doubts");
  if (const auto reason = text(reading, "reason"); !reason.empty()) words.push_back(reason);
  if (const auto whose = text(reading, "claimed_by"); !whose.empty())
    words.push_back("claimed by " + whose);
  else if (words.empty() && reading.value("counts", Json()) == false)
    words.emplace_back("superseded");
  return joined(words);
}

}  // namespace

void show_readings(Context& context, const Json& readings) {
  auto& out = context.world.out;
  if (readings.empty()) out << "no readings; choose a place with 'tenth round' and press the gauge's button\n";
  const int in_places = places_of(context, readings, Unit::in);
  const int mm_places = places_of(context, readings, Unit::mm);
  for (const auto& reading : readings) {
    const Unit unit = unit_of(context, reading);
    const auto size = length(reading, "size_mm");
    const auto place = place_text(reading);
    std::string line = right(text(reading, "seq"), 6) + "  ";
    line += inked(context.ink, state_mark(text(reading, "state")), 10);
    line += left(cut(place.empty() ? "no place" : place, kPlaceColumns), kPlaceColumns);
    line += right(size ? fixed(*size, unit, unit == Unit::in ? in_places : mm_places) : "no size", 11);
    line += " " + std::string(name(unit));
    if (const auto words = remark(reading); !words.empty()) line += "  " + words;
    out << line << '\n';
  }
}

}  // namespace tenth::cli
