#include "cli/render/status.hpp"

#include <ostream>

#include "cli/render/gauge.hpp"
#include "cli/render/lines.hpp"
#include "cli/render/text.hpp"

namespace tenth::cli {
namespace {

constexpr std::size_t kNameColumns = 10;

void print_line(Context& context, const std::string& name, const std::string& words) {
  context.world.out << context.ink(Tone::quiet, left(name, kNameColumns)) << words << '\n';
}

std::string or_none(const std::string& words, const std::string& none) {
  return words.empty() ? none : words;
}

void print_gauge(Context& context, const Json& gauge) {
  const auto last = gauge.value("last", Json());
  const Unit unit = context.unit_for(last.is_object() ? last.value("unit", Json()) : gauge.value("unit", Json()));
  std::string line = gauge_mark(context.ink, gauge) + text(gauge, "name");
  if (const auto set = setting_text(gauge, unit); !set.empty()) line += ", " + set;
  if (gauge.value("overdue", false)) line += ", overdue for calibration since " + text(gauge, "due");
  if (last.is_object()) line += ", last " + with_unit(length(last, "size_mm"), unit);
  if (const auto place = place_text(last); !place.empty()) line += " at " + place;
  if (const auto why = text(gauge, "why"); !why.empty()) line += ": " + why;
  print_line(context, "gauge", line);
}

std::string ledger_text(const Json& ledger) {
  const auto waiting = count(ledger, "waiting");
  return text(ledger, "seq") + " entries, " +
         (waiting == 0 ? "all on disk" : std::to_string(waiting) + " waiting for the disk");
}

}  // namespace

void show_status(Context& context, const Json& status) {
  constexpr std::int64_t kMegabyte = 1'000'000;
  print_line(context, "engine", or_none(text(status, "engine"), "none; 'tenth engine use NAME'"));
  print_line(context, "operator", or_none(text(status, "operator"), "none; 'tenth operator use NAME'"));
  if (const auto stage = text(status, "stage"); !stage.empty()) print_line(context, "stage", stage);
  for (const auto& place : status.at("places")) print_line(context, "place", place_line(context.ink, place, kNameColumns));
  for (const auto& gauge : status.at("gauges")) print_gauge(context, gauge);
  const auto alerts = status.value("alerts", Json(0));
  const auto open = alerts.is_array() ? static_cast<std::int64_t>(alerts.size()) : alerts.get<std::int64_t>();
  print_line(context, "alerts", open == 0 ? "none open" : std::to_string(open) + " open; 'tenth alerts'");
  print_line(context, "ledger", ledger_text(status.at("ledger")));
  print_line(context, "disk", std::to_string(count(status.at("disk"), "free_bytes") / kMegabyte) + " MB free");
  print_line(context, "tenthd", text(status, "version"));
}

}  // namespace tenth::cli
