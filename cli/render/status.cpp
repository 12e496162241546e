#include "cli/render/status.hpp"

#include <ostream>

#include "cli/render/gauge.hpp"
#include "cli/render/lines.hpp"
#include "cli/render/text.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

constexpr std::size_t kNameColumns = 10;

void print_line(Context& context, const std::string& name, const std::string& words) {
  context.world.out << context.ink(Tone::quiet, left(name, kNameColumns)) << words << '\n';
}

std::string or_none(const std::string& words, const std::string& none) {
  return words.empty() ? none : words;
}

/// The gauge, its setting and what it read last; then, where it is gone, why.
void print_gauge(Context& context, const Json& gauge) {
  constexpr std::size_t kMark = 9;
  const auto last = gauge.value("last", Json());
  const Unit unit = context.unit_for(last.is_object() ? last.value("unit", Json()) : gauge.value("unit", Json()));
  std::string line = text(gauge, "name");
  if (const auto set = setting_text(gauge, unit); !set.empty()) line += ", " + set;
  if (gauge.value("overdue", false))
    line += ", overdue for calibration since " + text(gauge, "due");
  else if (const auto due = text(gauge, "due"); !due.empty())
    line += ", calibrated until " + due;
  if (last.is_object()) line += ", last " + with_unit(length(last, "size_mm"), unit);
  if (const auto place = place_text(last); !place.empty()) line += " at " + place;
  if (gauge.value("age_s", Json()).is_number()) line += ", heard " + age_text(count(gauge, "age_s")) + " ago";
  if (const auto why = text(gauge, "why"); !why.empty()) line += ": " + why;
  line = wrapped(line, kNameColumns + kMark, kNameColumns + kMark);
  line.pop_back();  // its end
  print_line(context, "gauge", gauge_mark(context.ink, gauge) + line);
}

bool is_through(const Json& place) {
  return text(place, "feature").empty() && count(place, "of") > 0;
}

/// Where somebody stands, line by line; the rounds that are through in one.
void print_places(Context& context, const Json& places) {
  std::vector<std::string> through;
  for (const auto& place : places)
    if (is_through(place) && !text(place, "gauge").empty())
      through.push_back(text(place, "gauge"));
    else
      print_line(context, "place", place_line(context.ink, place, kNameColumns));
  if (through.empty()) return;
  std::string line = wrapped("through: " + joined(through), kNameColumns, kNameColumns);
  line.pop_back();  // its end
  print_line(context, "rounds", line);
}

void print_warmths(Context& context, const Json& warmths) {
  if (warmths.empty()) print_line(context, "warmth", "not told; sizes are judged as read");
  for (const auto& warmth : warmths) {
    const auto feature = text(warmth, "feature"), gauge = text(warmth, "gauge"), within = text(warmth, "within");
    print_line(context, "warmth",
               (feature.empty() ? "parts" : feature) + " at " + text(warmth, "part") + " C" +
                   (gauge.empty() ? "" : ", gauge at " + gauge + " C") +
                   (within.empty() ? "" : ", within " + within + " K") + ", " + age_text(count(warmth, "age_s")) +
                   " ago");
  }
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
  print_places(context, status.at("places"));
  for (const auto& gauge : status.at("gauges")) print_gauge(context, gauge);
  print_warmths(context, status.value("temperature", Json::array()));
  if (const auto held = count(status, "suspects"); held > 0)
    print_line(context, "suspect", std::to_string(held) + " readings are held; 'tenth readings --all'");
  const auto alerts = status.value("alerts", Json(0));
  const auto open = alerts.is_array() ? static_cast<std::int64_t>(alerts.size()) : alerts.get<std::int64_t>();
  print_line(context, "alerts", open == 0 ? "none open" : std::to_string(open) + " open; 'tenth alerts'");
  print_line(context, "ledger", ledger_text(status.at("ledger")));
  print_line(context, "disk", std::to_string(count(status.at("disk"), "free_bytes") / kMegabyte) + " MB free");
  print_line(context, "tenthd", text(status, "version"));
}

}  // namespace tenth::cli
