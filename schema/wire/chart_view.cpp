#include "schema/wire/chart_view.hpp"

#include <algorithm>

#include "rules/statistics/charts.hpp"
#include "rules/statistics/master_checks.hpp"
#include "rules/statistics/run_rules.hpp"
#include "schema/json/time.hpp"
#include "schema/wire/number_json.hpp"

namespace tenth {
namespace {

constexpr double kDay_us = 86'400e6;

/// One check on a master: what was shown there less what was shown when it was set.
struct Check {
  const Setting* setting;
  double drift_mm = 0, days = 0;
};

std::vector<Check> checks_of(const Bench& bench, const Gauge& gauge) {
  std::vector<Check> checks;
  const Setting* zero = nullptr;
  for (const Setting& setting : bench.settings) {
    if (setting.gauge != gauge.name || setting.voided) continue;
    if (setting.drift && zero != nullptr)
      checks.push_back({&setting, statistics::millimetres(setting.shown - zero->shown),
                        static_cast<double>(wall_us_from(setting.time).value_or(0)) / kDay_us});
    if (setting.sets_zero) zero = &setting;
  }
  if (checks.empty()) return checks;
  const double first_day = checks.front().days;
  for (Check& check : checks) check.days -= first_day;
  return checks;
}

std::vector<double> values_of(const std::vector<Check>& checks) {
  std::vector<double> values;
  for (const Check& check : checks) values.push_back(check.drift_mm);
  return values;
}

Json interval_json(const statistics::Interval& interval) {
  return {{"lower_mm", estimated_mm(interval.lower)}, {"upper_mm", estimated_mm(interval.upper)}};
}

Json estimate_json(const statistics::Estimate& estimate) {
  Json json = interval_json(estimate.interval);
  json.update({{"value_mm", estimated_mm(estimate.value)},
               {"t", estimated(estimate.t)},
               {"p", estimated(estimate.p)},
               {"real", estimate.real()}});
  return json;
}

Json fired_json(const std::vector<Check>& checks, statistics::Values values, const statistics::Individuals& chart) {
  Json fired = Json::array();
  if (const auto rules = statistics::run_rules(values, chart.mean, chart.sigma))
    for (const statistics::RuleFired& rule : *rules)
      fired.push_back({{"rule", statistics::kRunRules.of(rule.rule)}, {"seq", checks[rule.index].setting->seq}});
  return fired;
}

Json individuals_json(const std::vector<Check>& checks, statistics::Values values,
                      const statistics::Individuals& chart) {
  Json ranges = Json::array();
  for (const double range : chart.ranges) ranges.push_back(estimated_mm(range));
  Json json = interval_json(chart.limits);
  json.update({{"mean_mm", estimated_mm(chart.mean)},
               {"sigma_mm", estimated_mm(chart.sigma)},
               {"ranges_mm", ranges},
               {"mean_range_mm", estimated_mm(chart.mean_range)},
               {"range_limit_mm", estimated_mm(chart.range_limit)},
               {"fired", fired_json(checks, values, chart)}});
  return json;
}

Json ewma_json(statistics::Values values, const statistics::Individuals& chart) {
  Json points = Json::array();
  if (const auto ewma = statistics::ewma(values, {chart.mean, chart.sigma}))
    for (const auto& point : *ewma) {
      Json json = interval_json(point.limits);
      json.update({{"value_mm", estimated_mm(point.value)}, {"beyond", point.beyond}});
      points.push_back(std::move(json));
    }
  return points;
}

/// About 0, which a gauge on its master should show: slack half a sigma, decision at five (common practice).
Json cusum_json(statistics::Values values, const statistics::Individuals& chart) {
  Json points = Json::array();
  if (const auto cusum = statistics::cusum(values, {0, chart.sigma / 2, 5 * chart.sigma}))
    for (const auto& point : *cusum)
      points.push_back(
          {{"high_mm", estimated_mm(point.high)}, {"low_mm", estimated_mm(point.low)}, {"signals", point.signals}});
  return points;
}

void add_drift(Json& json, const std::vector<Check>& checks, const Gauge& gauge) {
  json.update({{"drift_per_month", nullptr}, {"set_again", nullptr}});
  constexpr double kLeastDays = 1;  // from less a drift by the month would be a guess
  if (checks.back().days < kLeastDays) return;
  std::vector<statistics::MasterCheck> points;
  for (const Check& check : checks) points.push_back({check.days, check.drift_mm});
  const auto drift = statistics::drift(points);
  if (!drift) return;
  const statistics::SetAgain again = statistics::set_again(*drift, statistics::millimetres(gauge.drift));
  json["drift_per_month"] = estimate_json(drift->per_month);
  json["set_again"] = {{"likely_days", estimated(again.likely_days)},
                       {"earliest_days", estimated(again.earliest_days)}};
}

statistics::MasterReading on_master(Length master, Length shown) {
  return {statistics::millimetres(master), statistics::millimetres(shown)};
}

std::vector<statistics::MasterReading> on_masters(const MasterStudy& study) {
  std::vector<statistics::MasterReading> readings;
  for (std::size_t i = 0; i < study.shown.size(); ++i) readings.push_back(on_master(study.order[i], study.shown[i]));
  return readings;
}

/// What a gauge that reads sizes showed each time it was on a master; another gauge is no standard.
Result<std::vector<statistics::MasterReading>> on_masters(const Bench& bench, const Gauge& gauge) {
  if (gauge.reads != Reads::size)
    return refuse("reads_deviation",
                  "gauge `" + gauge.name + "` reads deviations: it is set on its master and has no bias there",
                  "`tenth charts " + gauge.name + "` shows its drift");
  std::vector<statistics::MasterReading> readings;
  for (const Setting& setting : bench.settings)
    if (setting.gauge == gauge.name && !setting.voided && setting.used.gauge.empty())
      readings.push_back(on_master(setting.master, setting.shown));
  return readings;
}

Result<Json> bias_of(const Gauge& gauge, const std::vector<statistics::MasterReading>& readings) {
  std::vector<double> errors;
  for (const auto& reading : readings) errors.push_back(reading.value - reading.reference);
  TENTH_TRY(const statistics::Bias bias, statistics::bias(errors, 0));
  Json json = estimate_json(bias.bias);
  json.update({{"gauge", gauge.name},
               {"unit", name(gauge.unit.value_or(Unit::mm))},
               {"readings", bias.readings.count},
               {"deviation_mm", estimated_mm(bias.readings.deviation)}});
  return json;
}

Result<Json> linearity_of(const Gauge& gauge, const std::vector<statistics::MasterReading>& readings) {
  TENTH_TRY(const statistics::Linearity linearity, statistics::linearity(readings));
  const statistics::Estimate& slope = linearity.line.slope;
  Json json = {{"gauge", gauge.name},
               {"unit", name(gauge.unit.value_or(Unit::mm))},
               {"readings", readings.size()},
               {"slope",
                {{"value", slope.value},
                 {"lower", slope.interval.lower},
                 {"upper", slope.interval.upper},
                 {"t", estimated(slope.t)},
                 {"p", estimated(slope.p)},
                 {"real", slope.real()}}},
               {"intercept", estimate_json(linearity.line.intercept)},
               {"r_squared", estimated(linearity.line.r_squared)},
               {"acceptable", linearity.acceptable},
               {"lack_f", estimated(linearity.lack_f)},
               {"lack_p", estimated(linearity.lack_p)},
               {"masters", Json::array()}};
  for (const statistics::MasterBias& master : linearity.masters) {
    Json one = interval_json(master.band);
    one.update({{"master_mm", estimated_mm(master.reference)},
                {"readings", master.biases.count},
                {"bias_mm", estimated_mm(master.biases.mean)}});
    json["masters"].push_back(std::move(one));
  }
  return json;
}

/// The figures of a planned study say how far it is.
Result<Json> with_study(Result<Json> figures, const MasterStudy& study) {
  if (figures) figures->update({{"study", study.name}, {"done", study.shown.size()}, {"of", study.order.size()}});
  return figures;
}

}  // namespace

Result<Json> charts_json(const Bench& bench, const Gauge& gauge) {
  const std::vector<Check> checks = checks_of(bench, gauge);
  const std::vector<double> values = values_of(checks);
  const auto chart = statistics::individuals(values);
  if (!chart)
    return refuse(
        "too_few",
        "gauge `" + gauge.name + "` has " + std::to_string(checks.size()) + " checks on its master; a chart wants two",
        "`tenth recheck " + gauge.name + "` makes one");
  Json json = {{"gauge", gauge.name},
               {"unit", name(gauge.unit.value_or(Unit::mm))},
               {"allowed_mm", mm(gauge.drift)},
               {"checks", Json::array()}};
  for (const Check& check : checks)
    json["checks"].push_back({{"seq", check.setting->seq},
                              {"time", check.setting->time},
                              {"master_mm", mm(check.setting->master)},
                              {"drift_mm", estimated_mm(check.drift_mm)}});
  json["individuals"] = individuals_json(checks, values, *chart);
  json["ewma"] = ewma_json(values, *chart);
  json["cusum"] = cusum_json(values, *chart);
  add_drift(json, checks, gauge);
  return json;
}

Result<Json> bias_json(const Bench& bench, const Gauge& gauge) {
  TENTH_TRY(const auto readings, on_masters(bench, gauge));
  return bias_of(gauge, readings);
}

Result<Json> bias_json(const Bench& bench, const MasterStudy& study) {
  return with_study(bias_of(bench.gauges.at(study.gauge), on_masters(study)), study);
}

Result<Json> linearity_json(const Bench& bench, const Gauge& gauge) {
  TENTH_TRY(const auto readings, on_masters(bench, gauge));
  return linearity_of(gauge, readings);
}

Result<Json> linearity_json(const Bench& bench, const MasterStudy& study) {
  return with_study(linearity_of(bench.gauges.at(study.gauge), on_masters(study)), study);
}

}  // namespace tenth
