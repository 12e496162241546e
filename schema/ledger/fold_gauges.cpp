#include <algorithm>
#include <stdexcept>

#include "schema/ledger/fold_parts.hpp"

namespace tenth {
namespace {

Gauge& gauge_of(Bench& bench, const Entry& entry) {
  return bench.gauges.at(entry.body.at("gauge").get<std::string>());
}

/// What a setting or check says of its gauge: that its zero is right, or that it drifted.
void heed(Gauge& gauge, const Setting& setting) {
  const bool right = setting.sets_zero || setting.good == true;
  gauge.drifted = !right;
  if (setting.good == true) gauge.last_good_check = setting.seq;
  if (!right) return;
  gauge.confirmed = setting.seq;
  gauge.confirmed_time = setting.time;
}

/// The same from all that are not void; those from before the gauge was added again say nothing of its zero.
void heed_again(Gauge& gauge, const std::vector<Setting>& settings) {
  gauge.confirmed = gauge.last_good_check = 0;
  gauge.confirmed_time.clear();
  gauge.drifted = false;
  for (const Setting& setting : settings) {
    if (setting.voided || setting.gauge != gauge.name) continue;
    if (setting.seq > gauge.added)
      heed(gauge, setting);
    else if (setting.good == true)
      gauge.last_good_check = setting.seq;
  }
}

}  // namespace

void apply_profile(Bench& bench, const Entry& entry) {
  bench.profiles[entry.body.at("sha256").get<std::string>()] = {entry.seq, entry.body.at("name").get<std::string>(),
                                                                entry.body.at("text").get<std::string>()};
}

namespace {

/// What a gauge was before it was changed goes on, all but what the change says; its zero only where the same numbers
/// mean the same.
void go_on(Gauge& gauge, const Gauge& before) {
  gauge.added = before.added;
  gauge.last_gone = before.last_gone;
  gauge.link_state = before.link_state;
  gauge.link_why = before.link_why;
  if (gauge.reads != before.reads || gauge.profile_sha256 != before.profile_sha256 || gauge.channel != before.channel ||
      gauge.unit != before.unit)
    return;
  gauge.setting = before.setting;
  gauge.confirmed = before.confirmed;
  gauge.confirmed_time = before.confirmed_time;
  gauge.drifted = before.drifted;
  gauge.awaited = before.awaited;
}

}  // namespace

void apply_gauge(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  Gauge gauge;
  gauge.entry = gauge.added = entry.seq;
  gauge.name = body.at("gauge").get<std::string>();
  gauge.port = body.at("port").get<std::string>();
  gauge.profile = body.at("profile").get<std::string>();
  gauge.profile_sha256 = body.at("profile_sha256").get<std::string>();
  gauge.reads = reads_named(body.at("reads").get<std::string>()).value();
  gauge.measures = measures_named(body.at("measures").get<std::string>()).value();
  if (const auto unit = text_at(body, "unit")) gauge.unit = parse_unit(*unit).value();
  gauge.resolution = length_at(body, "resolution_pm");
  gauge.uncertainty = length_at(body, "uncertainty_pm");
  gauge.repeatability = length_at(body, "repeatability_pm");
  gauge.drift = length_at(body, "drift_pm").value();
  gauge.serial = text_at(body, "serial").value_or("");
  if (const auto expansion = text_at(body, "expansion")) gauge.expansion = parse_expansion(*expansion).value();
  gauge.channel = text_at(body, "channel").value_or("");
  gauge.button = text_at(body, "button").value_or("");
  if (const auto capture = text_at(body, "capture")) gauge.capture = capture_named(*capture).value();
  gauge.settle_band = length_at(body, "settle_band_pm").value_or(gauge.settle_band);
  gauge.settle_for_ms = body.value("settle_for_ms", gauge.settle_for_ms);
  if (const auto before = bench.gauges.find(gauge.name); before != bench.gauges.end()) {
    gauge.last_good_check = before->second.last_good_check;
    gauge.calibration = before->second.calibration;  // a name stays with its instrument
    if (seq_at(body, "previous")) go_on(gauge, before->second);
    if (!gauge.uncertainty && gauge.calibration) gauge.uncertainty = gauge.calibration->uncertainty;
  }
  bench.gauges[gauge.name] = gauge;
}

void apply_gauge_drop(Bench& bench, const Entry& entry) {
  Gauge& gauge = gauge_of(bench, entry);
  gauge.dropped = true;
  gauge.awaited.reset();
  bench.own.erase(gauge.name);
  bench.gauge_operators.erase(gauge.name);
}

void apply_link(Bench& bench, const Entry& entry) {
  Gauge& gauge = gauge_of(bench, entry);
  gauge.link_state = entry.body.at("state").get<std::string>();
  gauge.link_why = text_at(entry.body, "why").value_or("");
  if (gauge.link_state == "gone") gauge.last_gone = entry.seq;
}

void apply_await(Bench& bench, const Entry& entry) {
  gauge_of(bench, entry).awaited =
      Awaited{length_at(entry.body, "master_pm"), master_used(entry.body), entry.seq,
              entry.body.at("time").get<std::string>(), text_at(entry.body, "study").value_or("")};
}

void apply_await_end(Bench& bench, const Entry& entry) {
  gauge_of(bench, entry).awaited.reset();
}

void apply_setting(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  Setting setting;
  setting.seq = entry.seq;
  setting.time = body.at("time").get<std::string>();
  setting.gauge = body.at("gauge").get<std::string>();
  setting.master = length_at(body, "master_pm").value();
  setting.used = master_used(body);
  setting.previous = seq_at(body, "previous");
  setting.shown = length_at(body, "shown_pm").value();
  setting.unit = parse_unit(body.at("unit").get<std::string>()).value();
  setting.drift = length_at(body, "drift_pm");
  if (!body.at("good").is_null()) setting.good = body.at("good").get<bool>();
  setting.sets_zero = body.at("sets_zero").get<bool>();
  bench.settings.push_back(setting);
  Gauge& gauge = gauge_of(bench, entry);
  gauge.awaited.reset();
  heed(gauge, setting);
  if (setting.sets_zero) gauge.setting = setting;
}

void apply_setting_void(Bench& bench, const Entry& entry) {
  const auto seq = entry.body.at("setting").get<std::int64_t>();
  for (Setting& setting : bench.settings)
    if (setting.seq == seq) setting.voided = true;
  Gauge& gauge = gauge_of(bench, entry);
  if (gauge.setting && gauge.setting->seq == seq) gauge.setting.reset();
  if (!gauge.setting && gauge.awaited && !gauge.awaited->master) gauge.awaited.reset();  // nothing is left to re-check
  heed_again(gauge, bench.settings);
}

}  // namespace tenth
