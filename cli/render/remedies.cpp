#include "cli/render/remedies.hpp"

#include <ostream>

#include "cli/render/mark.hpp"
#include "cli/render/text.hpp"

namespace tenth::cli {
namespace {

constexpr std::size_t kIndent = 4;

std::string undo_words(const std::string& undo) {
  if (undo == "free") return "can be undone";
  return undo == "part" ? "takes a part" : "cannot be undone";
}

std::string shown(const Json& object, const char* key, Unit unit) {
  const auto value = length(object, key);
  return value ? fixed(*value, unit, usual_places(unit)) : "-";
}

/// "3: 0.0022 .. 0.0024 + in"
void print_after(Context& context, const Json& remedy, Unit unit) {
  for (const auto& after : remedy.at("after")) {
    const Mark mark = verdict_mark(text(after, "verdict"));
    context.world.out << std::string(kIndent, ' ') << right(text(after, "label"), 3) << "  "
                      << shown(after, "min_mm", unit) << " .. " << shown(after, "max_mm", unit) << "  "
                      << context.ink(mark.tone, mark.sign + " " + mark.word) << '\n';
  }
}

void print_remedy(Context& context, const Json& remedy, Unit unit) {
  auto& out = context.world.out;
  const bool enough = remedy.at("enough") == true;
  const Mark mark = enough ? Mark{"+", "enough", Tone::good} : Mark{"?", "not enough", Tone::look};
  out << '\n'
      << inked(context.ink, mark) << text(remedy, "id") << ' ' << text(remedy, "kind") << ' ' << text(remedy, "fit")
      << (text(remedy, "fit").empty() ? text(remedy, "feature") : "") << ", " << text(remedy, "in") << " of "
      << text(remedy, "of") << " in, " << undo_words(text(remedy, "undo")) << '\n';
  out << std::string(kIndent, ' ') << wrapped(text(remedy, "text"), kIndent, kIndent);
  print_after(context, remedy, unit);
  for (const auto& caution : texts(remedy, "cautions"))
    out << context.ink(Tone::quiet, std::string(kIndent, ' ') + "! " + wrapped(caution, kIndent + 2, kIndent + 2));
}

}  // namespace

void show_remedies(Context& context, const Json& list, Unit spec_unit) {
  const Unit unit = context.options.unit.value_or(spec_unit);
  auto& out = context.world.out;
  out << text(list, "engine") << ", after entry " << text(list, "seq");
  if (const auto& stock = list.at("stock"); stock.is_object()) out << ", stock: " << text(stock, "title");
  out << '\n';
  for (const auto& remedy : list.at("remedies")) print_remedy(context, remedy, unit);
  if (!list.at("none").empty()) out << "\nNo remedy:\n";
  for (const auto& none : list.at("none")) {
    const std::string of = text(none, "fit").empty() ? text(none, "feature") : text(none, "fit");
    out << "! "
        << wrapped(of + (text(none, "label").empty() ? "" : " " + text(none, "label")) + ": " + text(none, "why"),
                   kIndent, 2);
  }
  if (list.at("remedies").empty() && list.at("none").empty())
    out << "nothing is out\n";
  else
    out << "\nAdvice only: the part makers' limits and your judgement decide;\nkeep the choice with 'tenth decide'.\n";
}

void show_moved_ring(Context& context, const Json& both, const Feature& feature, Unit spec_unit) {
  const Unit unit = context.options.unit.value_or(spec_unit);
  const auto limit = [unit](std::optional<Length> length) {
    return length ? fixed(*length, unit, usual_places(unit)) : "-";
  };
  auto& out = context.world.out;
  out << feature.name << ' ' << text(both.at("now"), "label") << " against " << limit(feature.limits.lower) << " .. "
      << limit(feature.limits.upper) << ", in " << (unit == Unit::in ? "inches" : "mm") << '\n';
  for (const char* key : {"now", "would"}) {
    const Json& gap = both.at(key);
    const bool now = key == std::string("now");
    out << inked(context.ink, verdict_mark(text(gap, "verdict"))) << left(now ? "now" : "would be", 10)
        << shown(gap, "mean_mm", unit) << " in a bore of " << shown(both, now ? "bore_now_mm" : "bore_would_mm", unit)
        << '\n';
  }
}

void show_what_if(Context& context, const Json& both, Unit spec_unit) {
  const Unit unit = context.options.unit.value_or(spec_unit);
  auto& out = context.world.out;
  const Json& now = both.at("now");
  out << text(now, "fit") << ' ' << text(now, "label") << " against " << shown(now, "lower_mm", unit) << " .. "
      << shown(now, "upper_mm", unit) << ", in " << (unit == Unit::in ? "inches" : "mm") << '\n';
  for (const char* key : {"now", "would"}) {
    const Json& fit = both.at(key);
    const Mark mark = verdict_mark(text(fit, "verdict"));
    out << inked(context.ink, mark) << left(key == std::string("now") ? "now" : "would be", 10)
        << shown(fit, "min_mm", unit) << " .. " << shown(fit, "max_mm", unit) << ", mean "
        << shown(fit, "mean_mm", unit) << '\n';
  }
}

}  // namespace tenth::cli
