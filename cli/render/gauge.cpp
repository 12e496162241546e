#include "cli/render/gauge.hpp"

#include <ostream>

#include "cli/render/mark.hpp"

namespace tenth::cli {
namespace {

std::vector<std::string> described(const Json& gauge, Unit unit) {
  std::vector<std::string> parts = {text(gauge, "port"), text(gauge, "profile"), "reads " + text(gauge, "reads"),
                                    "measures " + text(gauge, "measures")};
  if (const auto own = text(gauge, "unit"); !own.empty()) parts.push_back(own);
  if (const auto channel = text(gauge, "channel"); !channel.empty()) parts.push_back("channel " + channel);
  if (const auto capture = text(gauge, "capture"); !capture.empty() && capture != "asked")
    parts.push_back("readings when " + capture);
  if (const auto button = text(gauge, "button"); !button.empty()) parts.push_back("taken by the button of " + button);
  if (const auto serial = text(gauge, "serial"); !serial.empty()) parts.push_back("serial " + serial);
  if (const auto due = text(gauge, "due"); !due.empty()) parts.push_back("calibrated, due " + due);
  if (const auto drift = length(gauge, "drift_mm")) parts.push_back("drift at most " + with_unit(*drift, unit));
  if (const auto u = length(gauge, "uncertainty_mm")) parts.push_back("uncertainty " + with_unit(*u, unit));
  if (const auto r = length(gauge, "repeatability_mm")) parts.push_back("repeatability " + with_unit(*r, unit));
  return parts;
}

/// The parts in lines of 80 columns, indented by 4; a part is never broken.
std::string in_lines(const std::vector<std::string>& parts) {
  constexpr std::size_t kColumns = 80, kIndent = 4;
  std::string lines(kIndent, ' ');
  std::size_t used = kIndent;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::string part = parts[i] + (i + 1 < parts.size() ? "," : "");
    if (i > 0 && used + 1 + width(part) > kColumns) {
      lines += "\n" + std::string(kIndent, ' ');
      used = kIndent;
    } else if (i > 0) {
      lines += ' ';
      ++used;
    }
    lines += part;
    used += width(part);
  }
  return lines + "\n";
}

}  // namespace

std::string gauge_mark(const Ink& ink, const Json& gauge) {
  const auto state = text(gauge, "state");
  return inked(ink, state == "open" ? Mark{"+", state, Tone::good} : Mark{"!", state, Tone::bad}, 9);
}

std::string master_text(const Json& set, Unit unit) {
  const auto size = with_unit(length(set, "master_mm"), unit), master = text(set, "master"), in = text(set, "in");
  return size + (master.empty() ? "" : " (" + master + ")") + (in.empty() ? "" : " in " + in);
}

std::string setting_text(const Json& gauge, Unit unit) {
  if (const auto waits = text(gauge, "awaits"); !waits.empty())
    return "waits for its " + (waits == "study" ? "study, on " + with_unit(length(gauge, "awaits_mm"), unit) : waits);
  const auto setting = gauge.find("setting");
  if (setting == gauge.end() || setting->is_null()) return text(gauge, "reads") == "deviation" ? "not set" : "";
  return "set on " + master_text(*setting, unit) + ", " + age_text(count(*setting, "age_s")) + " ago";
}

void show_gauge(Context& context, const Json& gauge) {
  const Json setting = gauge.value("setting", Json());
  const Json own = gauge.value("unit", Json());
  const Unit unit = context.unit_for(own.is_null() && setting.is_object() ? setting.value("unit", Json()) : own);
  auto& out = context.world.out;
  out << gauge_mark(context.ink, gauge) << text(gauge, "name");
  if (const auto set = setting_text(gauge, unit); !set.empty()) out << ", " << set;
  if (gauge.value("overdue", false)) out << ", overdue for calibration";
  if (const auto why = text(gauge, "why"); !why.empty()) out << ": " << why;
  out << '\n';
  out << in_lines(described(gauge, unit));
}

void show_gauges(Context& context, const Json& gauges) {
  if (gauges.empty()) context.world.out << "no gauge yet; add one with 'tenth gauge add'\n";
  for (const auto& gauge : gauges) show_gauge(context, gauge);
}

}  // namespace tenth::cli
