#include "cli/render/study.hpp"

#include <array>
#include <ostream>
#include <utility>

#include "cli/render/mark.hpp"
#include "cli/render/text.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

constexpr std::size_t kNameColumns = 16, kColumns = 12;

/// Two places finer than people read lengths: these are standard deviations.
std::string fine(const Json& object, const char* key, Unit unit) {
  const auto value = length(object, key);
  return value ? fixed(*value, unit, usual_places(unit) + 2) : "-";
}

std::string percent(const Json& object, const char* key) {
  const Json value = object.value(key, Json());
  if (!value.is_number()) return "-";
  return fixed(Length::from_pm(static_cast<std::int64_t>(value.get<double>() * 1e9)), Unit::mm, 1) + " %";
}

std::string decimal(const Json& value, int places) {
  if (!value.is_number()) return "-";
  return fixed(length_from_mm(value), Unit::mm, places);
}

using Rows = std::array<std::pair<const char*, const char*>, 6>;
constexpr Rows kRows = {{{"repeatability", "repeatability"},
                         {"operators", "operators"},
                         {"interaction", "interaction"},
                         {"gauge", "gauge, whole"},
                         {"parts", "parts"},
                         {"total", "total"}}};

void print_shares(Context& context, const std::string& title, const Json& result, Unit unit) {
  auto& out = context.world.out;
  const bool intervals = result.at("gauge").contains("lower_mm");
  std::string heading = left(title, kNameColumns) + right("sigma", kColumns);
  if (intervals) heading += right("from", kColumns) + right("to (95 %)", kColumns);
  out << '\n' << context.ink(Tone::quiet, heading + right("of total", kColumns) + right("tolerance", kColumns)) << '\n';
  for (const auto& [key, words] : kRows) {
    if (!result.contains(key)) continue;
    const Json& share = result.at(key);
    out << left(words, kNameColumns) << right(fine(share, "sigma_mm", unit), kColumns);
    if (intervals)
      out << right(fine(share, "lower_mm", unit), kColumns) << right(fine(share, "upper_mm", unit), kColumns);
    out << right(percent(share, "of_total"), kColumns) << right(percent(share, "of_tolerance"), kColumns) << '\n';
  }
  out << left("categories", kNameColumns) << right(decimal(result.at("categories"), 0), kColumns) << '\n';
}

Mark adequacy_mark(const std::string& verdict) {
  if (verdict == "good") return {"+", "good", Tone::good};
  if (verdict == "usable") return {"?", "usable", Tone::look};
  return {"!", "too coarse", Tone::bad};
}

void print_adequacy(Context& context, const Json& study, Unit unit) {
  auto& out = context.world.out;
  out << '\n'
      << context.ink(Tone::quiet,
                     "Is it good enough? +-" + fine(study, "uncertainty_mm", unit) +
                         (text(study, "uncertainty_from") == "stated" ? ", as stated"
                                                                      : ", twice its sigma here, without the master"))
      << '\n';
  for (const auto& one : study.at("adequacy"))
    out << inked(context.ink, adequacy_mark(text(one, "verdict")))
        << left(text(one, "subject") + " " + text(one, "what"), 2 * kNameColumns)
        << right(fine(one, "width_mm", unit), kColumns) << "  " << decimal(one.at("ratio"), 1)
        << " times its uncertainty\n";
}

}  // namespace

void show_study(Context& context, const Json& study) {
  if (study.contains("what")) return show_turn(context, study);
  const Unit unit = context.unit_for(study.value("unit", Json()));
  auto& out = context.world.out;
  out << "study " << text(study, "study") << ": gauge " << text(study, "gauge") << " on " << text(study, "feature")
      << ", " << text(study, "parts") << " parts, " << joined(texts(study, "operators")) << ", "
      << text(study, "trials") << " trials, in " << (unit == Unit::in ? "inches" : "mm") << '\n'
      << text(study, "done") << " of " << text(study, "of") << " readings taken\n";
  if (const auto others = study.at("by_others").size(); others > 0)
    out << context.ink(Tone::look, std::to_string(others) +
                                       " readings by another operator than planned are not used; take them anew")
        << '\n';
  if (const auto why = text(study, "why"); !why.empty()) out << why << '\n';
  if (study.at("anova").is_null()) return;
  const bool pooled = study.at("anova").at("pooled") == true;
  out << '\n' << "variance of both models; * is the one to use";
  const Json& models = study.at("anova").at("models");
  print_shares(context, pooled ? "  interaction" : "* interaction", models.at("interaction"), unit);
  print_shares(context, pooled ? "* pooled" : "  pooled", models.at("pooled"), unit);
  print_shares(context, "Ranges", study.at("average_and_range"), unit);
  print_adequacy(context, study, unit);
}

void show_turn(Context& context, const Json& study) {
  const Unit unit = context.unit_for(study.value("unit", Json()));
  auto& out = context.world.out;
  const auto done = count(study, "done"), of = count(study, "of");
  if (done > 0)
    out << inked(context.ink, {"+", "on master", Tone::good}) << with_unit(length(study, "master_mm"), unit)
        << ", shows " << with_unit(length(study, "shown_mm"), unit) << '\n';
  out << inked(context.ink, {">", "study", Tone::plain}) << text(study, "study") << ": " << done << " of " << of
      << " turns taken";
  if (done < of)
    out << "; the next press of " << text(study, "gauge") << " is on its master "
        << with_unit(length(study, "next_mm"), unit);
  if (done == of) out << "; see 'tenth study " << text(study, "what") << ' ' << text(study, "study") << "'";
  out << '\n';
}

void show_studies(Context& context, const Json& list) {
  if (list.empty()) context.world.out << "no study is planned; 'tenth study plan' begins one\n";
  for (const auto& study : list)
    context.world.out << text(study, "study") << ": gauge " << text(study, "gauge") << " on "
                      << (study.contains("what") ? "masters, " + text(study, "what") : text(study, "feature")) << ", "
                      << text(study, "of") << " readings\n";
}

void show_bias(Context& context, const Json& bias) {
  const Unit unit = context.unit_for(bias.value("unit", Json()));
  const bool real = bias.at("real") == true;
  context.world.out << inked(context.ink, real ? Mark{"!", "biased", Tone::bad} : Mark{"+", "no bias", Tone::good})
                    << text(bias, "gauge") << " reads " << fine(bias, "value_mm", unit) << ' ' << name(unit)
                    << " off its masters, 95 %: " << fine(bias, "lower_mm", unit) << " .. "
                    << fine(bias, "upper_mm", unit) << " (" << text(bias, "readings") << " readings)\n";
}

void show_linearity(Context& context, const Json& linearity) {
  const Unit unit = context.unit_for(linearity.value("unit", Json()));
  auto& out = context.world.out;
  const bool fine_all = linearity.at("acceptable") == true;
  out << inked(context.ink, fine_all ? Mark{"+", "no bias", Tone::good} : Mark{"!", "biased", Tone::bad})
      << text(linearity, "gauge")
      << (fine_all ? " shows no bias at any of its masters\n" : " shows a bias that chance does not explain\n");
  out << context.ink(Tone::quiet, right("master", kColumns) + right("bias", kColumns) + right("from", kColumns) +
                                      right("to (95 %)", kColumns))
      << '\n';
  for (const auto& master : linearity.at("masters"))
    out << right(fine(master, "master_mm", unit), kColumns) << right(fine(master, "bias_mm", unit), kColumns)
        << right(fine(master, "lower_mm", unit), kColumns) << right(fine(master, "upper_mm", unit), kColumns) << '\n';
}

}  // namespace tenth::cli
