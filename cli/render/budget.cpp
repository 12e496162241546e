#include "cli/render/budget.hpp"

#include <ostream>

#include "cli/render/mark.hpp"
#include "cli/render/text.hpp"

namespace tenth::cli {
namespace {

constexpr std::size_t kNameColumns = 26;

/// To a hundredth of what people read: terms are small.
std::string fine(const std::optional<Length>& value, Unit unit) {
  return value ? fixed(*value, unit, usual_places(unit) + 2) : "-";
}

std::string source_text(const Json& term) {
  if (text(term, "source") == "gauge") {
    const auto gauge = text(term, "gauge");
    return (gauge.empty() ? "its gauge" : "gauge " + gauge) + ", as stated, k = 2";
  }
  return "+-" + text(term, "within_k") + " K, " + text(term, "material") + " " + text(term, "expansion") + "e-6/K";
}

std::string settling_text(const Json& one, Unit unit) {
  const std::string side = text(one, "side");
  if (text(one, "source") == "gauge")
    return "a gauge for the " + side + " with an uncertainty of " + fine(length(one, "at_most_mm"), unit) + " " +
           std::string(name(unit)) + " or less";
  return "soaked parts: the temperature of the " + side + " known within " + text(one, "within_k") + " K";
}

void print_settling(Context& context, const Json& budget, Unit unit) {
  auto& out = context.world.out;
  if (text(budget, "verdict") != "doubtful" || !length(budget, "room_mm")) return;
  const auto& settling = budget.at("settling");
  out << "\nwith +-" << fine(length(budget, "room_mm"), unit) << " it would be decided";
  out << (settling.empty() ? "; no single term can bring it there\n" : ", by one of:\n");
  for (const auto& one : settling) out << "> " << settling_text(one, unit) << '\n';
  if (!settling.empty())
    out << context.ink(Tone::quiet, "more presses do not make a gauge's stated uncertainty smaller") << '\n';
}

}  // namespace

void show_budget(Context& context, const Json& budget) {
  const Unit unit = context.unit_for(budget.value("unit", Json()));
  const auto mark = verdict_mark(text(budget, "verdict"));
  auto& out = context.world.out;
  out << text(budget, "fit") << ' ' << text(budget, "label") << ", in " << (unit == Unit::in ? "inches" : "mm") << '\n';
  for (const auto& term : budget.at("terms")) {
    const auto side = text(term, "side") + " (" + text(term, "feature") + ")";
    out << "  " << left(side, kNameColumns) << "+-" << fine(length(term, "value_mm"), unit) << "  " << source_text(term)
        << '\n';
  }
  const auto whole = length(budget, "uncertainty_mm");
  out << "  " << left("root sum of squares", kNameColumns)
      << (whole ? "+-" + fine(whole, unit) : "not stated for both: 'tenth gauge add --uncertainty'") << '\n';
  out << inked(context.ink, mark) << fine(length(budget, "min_mm"), unit) << " .. "
      << fine(length(budget, "max_mm"), unit) << " against " << fine(length(budget, "lower_mm"), unit) << " .. "
      << fine(length(budget, "upper_mm"), unit) << '\n';
  print_settling(context, budget, unit);
}

}  // namespace tenth::cli
