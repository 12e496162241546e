#include "cli/render/chart.hpp"

#include <algorithm>
#include <ostream>

#include "cli/render/mark.hpp"
#include "cli/render/text.hpp"

namespace tenth::cli {
namespace {

constexpr int kRows = 11;            ///< of the picture, odd: zero may lie in the middle
constexpr std::size_t kMost = 64;    ///< checks shown, the latest
constexpr std::size_t kMargin = 12;  ///< for the figures at the left

std::string fine(const std::optional<Length>& value, Unit unit) {
  return value ? fixed(*value, unit, usual_places(unit) + 1) : "-";
}

/// From the top row to the bottom one, evenly.
struct Scale {
  Length top, bottom;

  int row(Length value) const {
    const auto span = std::max<std::int64_t>(1, (top - bottom).pm());
    const auto from_top = std::clamp<std::int64_t>((top - value).pm(), 0, span);
    return static_cast<int>(divide_rounded(from_top * (kRows - 1), span));
  }
};

std::vector<Length> drifts(const Json& charts) {
  std::vector<Length> all;
  for (const auto& check : charts.at("checks")) all.push_back(length(check, "drift_mm").value_or(Length()));
  if (all.size() > kMost) all.erase(all.begin(), all.end() - kMost);
  return all;
}

Scale scale_of(const std::vector<Length>& values, Length allowed, const Json& chart) {
  Length most = allowed;
  for (const Length value : values) most = std::max(most, value.magnitude());
  for (const char* key : {"lower_mm", "upper_mm"})
    most = std::max(most, length(chart, key).value_or(Length()).magnitude());
  return {most, -most};
}

/// Rows of the figures that stand at the left, and the line drawn at each.
struct Level {
  Length value;
  char line;
};

void print_picture(Context& context, const std::vector<Length>& values, const std::vector<Level>& levels,
                   const Scale& scale, Unit unit) {
  std::vector<std::string> rows(kRows, std::string(values.size(), ' '));
  std::vector<std::string> figures(kRows);
  for (const Level& level : levels) {
    const auto row = static_cast<std::size_t>(scale.row(level.value));
    rows[row].assign(values.size(), level.line);
    figures[row] = fine(level.value, unit);
  }
  for (std::size_t i = 0; i < values.size(); ++i) rows[static_cast<std::size_t>(scale.row(values[i]))][i] = 'o';
  for (int row = 0; row < kRows; ++row)
    context.world.out << right(figures[static_cast<std::size_t>(row)], kMargin) << " |"
                      << rows[static_cast<std::size_t>(row)] << '\n';
}

std::string plainly(std::string rule) {
  std::replace(rule.begin(), rule.end(), '_', ' ');
  return rule;
}

void print_signs(Context& context, const Json& charts) {
  auto& out = context.world.out;
  const auto& fired = charts.at("individuals").at("fired");
  for (const auto& rule : fired)
    out << inked(context.ink, {"!", "sign", Tone::look}) << plainly(text(rule, "rule"))
        << context.ink(Tone::quiet, "  #" + text(rule, "seq")) << '\n';
  const auto beyond = [](const Json& points, const char* key) {
    return std::any_of(points.begin(), points.end(), [key](const Json& point) { return point.at(key) == true; });
  };
  if (beyond(charts.at("ewma"), "beyond"))
    out << inked(context.ink, {"!", "sign", Tone::look})
        << "the weighted average is beyond its limits: a small lasting shift\n";
  if (beyond(charts.at("cusum"), "signals"))
    out << inked(context.ink, {"!", "sign", Tone::look}) << "the sum of deviations goes on growing: a lasting shift\n";
  if (fired.empty() && !beyond(charts.at("ewma"), "beyond") && !beyond(charts.at("cusum"), "signals"))
    out << inked(context.ink, {"+", "steady", Tone::good}) << "nothing that chance does not explain\n";
}

std::string days_text(const Json& days) {
  if (!days.is_number()) return "never at this drift";
  const double whole = days.get<double>();
  return whole > 3650 ? "in more than ten years" : std::to_string(static_cast<int>(whole)) + " days after a setting";
}

void print_drift(Context& context, const Json& charts, Unit unit) {
  const auto& drift = charts.at("drift_per_month");
  if (!drift.is_object()) return;
  auto& out = context.world.out;
  out << "drift a month " << fine(length(drift, "value_mm"), unit)
      << ", 95 %: " << fine(length(drift, "lower_mm"), unit) << " .. " << fine(length(drift, "upper_mm"), unit)
      << (drift.at("real") == true ? "" : "; it may be none") << '\n';
  out << "set again: likely " << days_text(charts.at("set_again").at("likely_days")) << ", at the earliest "
      << days_text(charts.at("set_again").at("earliest_days")) << '\n';
}

}  // namespace

void show_charts(Context& context, const Json& charts) {
  const Unit unit = context.unit_for(charts.value("unit", Json()));
  const auto& chart = charts.at("individuals");
  const auto values = drifts(charts);
  const Length allowed = length(charts, "allowed_mm").value_or(Length());
  const Scale scale = scale_of(values, allowed, chart);
  auto& out = context.world.out;
  out << "gauge " << text(charts, "gauge") << ": " << charts.at("checks").size() << " checks on its master, in "
      << (unit == Unit::in ? "inches" : "mm") << "; = allowed, - limits of chance, . mean\n";
  std::vector<Level> levels = {{Length(), ' '}, {allowed, '='}, {-allowed, '='}};
  if (const auto lower = length(chart, "lower_mm")) levels.push_back({*lower, '-'});
  if (const auto upper = length(chart, "upper_mm")) levels.push_back({*upper, '-'});
  if (const auto mean = length(chart, "mean_mm")) levels.push_back({*mean, '.'});
  print_picture(context, values, levels, scale, unit);
  print_signs(context, charts);
  print_drift(context, charts, unit);
}

}  // namespace tenth::cli
