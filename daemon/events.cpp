#include "daemon/events.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "daemon/gauge_view.hpp"
#include "rules/ring.hpp"
#include "rules/to_go.hpp"
#include "schema/json/time.hpp"
#include "schema/ledger/fold_parts.hpp"
#include "schema/wire/study_view.hpp"
#include "schema/wire/views.hpp"

namespace tenth {
namespace {

using Events = std::vector<Json>;

/// Of a gap: what is still to be filed off, below zero past the aim.
std::optional<Length> to_file(const Feature& feature, const Reading& reading) {
  if (feature.kind != Kind::gap || !feature.limits.any() || !reading.size) return std::nullopt;
  return gap_aim(feature) - *reading.size;
}

/// The reading just before of this gauge, at another place, where it shows the very same: it may be a second press of
/// that one, which nobody can tell but the person who pressed.
std::optional<std::int64_t> same_as(const Engine& engine, const Reading& reading) {
  constexpr std::int64_t kSoon_us = 3'000'000;
  const auto before = std::find_if(engine.readings.rbegin(), engine.readings.rend(), [&](const Reading& other) {
    return other.gauge == reading.gauge && other.seq < reading.seq && other.state != State::voided;
  });
  if (!reading.gauge || before == engine.readings.rend() || before->raw != reading.raw ||
      before->place == reading.place)
    return std::nullopt;
  if (before->state != State::kept || before->place->feature != reading.place->feature) return std::nullopt;
  const std::int64_t apart_us = wall_us_from(reading.time).value_or(0) - wall_us_from(before->time).value_or(0);
  return apart_us <= kSoon_us ? std::optional(before->seq) : std::nullopt;
}

Events reading_events(const Bench& bench, const Entry& entry) {
  return {reading_event(bench, entry.seq)};
}

Json change(const Bench& bench, std::int64_t seq, const Entry& entry) {
  const Reading& reading = *find_reading(bench, seq);
  Json event = {{"event", "change"}, {"seq", seq}, {"state", name(reading.state)}, {"by_seq", entry.seq}};
  event["act"] = entry.body.at("kind");
  event["engine"] = or_null(reading.engine);
  event["reason"] = or_null(reading.reason);
  event["size_mm"] = mm(reading.size);
  event["doubts"] = Json::array();
  for (const Doubt doubt : reading.doubts) event["doubts"].push_back(name(doubt));
  return event;
}

Events change_events(const Bench& bench, const Entry& entry) {
  Events events;
  for (const Json& seq : entry.body.at("seqs")) events.push_back(change(bench, seq.get<std::int64_t>(), entry));
  return events;
}

Events move_events(const Bench& bench, const Entry& entry) {
  Events events;
  for (const Json& move : entry.body.at("moves"))
    events.push_back(change(bench, move.at("seq").get<std::int64_t>(), entry));
  return events;
}

/// The keys of the body that the event has too.
Json picked(const Entry& entry, const std::string& event, const std::vector<const char*>& keys) {
  Json json = {{"event", event}};
  for (const char* key : keys) json[key] = entry.body.value(key, Json(nullptr));
  return json;
}

Events place_events(const Bench& bench, const Entry& entry) {
  return {place_event(bench, text_at(entry.body, "gauge"))};
}

Events engine_events(const Bench&, const Entry& entry) {
  return {picked(entry, "engine", {"engine"})};
}

Events link_events(const Bench&, const Entry& entry) {
  return {picked(entry, "gauge", {"gauge", "state", "why", "device"})};
}

Json setting_event(const Setting& setting) {
  Json event = {{"event", "setting"},
                {"seq", setting.seq},
                {"gauge", setting.gauge},
                {"master_mm", mm(setting.master)},
                {"shown_mm", mm(setting.shown)},
                {"drift_mm", mm(setting.drift)},
                {"unit", name(setting.unit)},
                {"good", or_null(setting.good)},
                {"sets_zero", setting.sets_zero},
                {"state", name(State::kept)},
                {"reason", nullptr}};
  event.update(used_json(setting.used));
  return event;
}

Events setting_events(const Bench& bench, const Entry& entry) {
  return {setting_event(*find_setting(bench, entry.seq))};
}

Events master_study_events(const Bench& bench, const Entry& entry) {
  Json event = master_study_json(bench, bench.master_studies.at(entry.body.at("study").get<std::string>()));
  event["seq"] = entry.seq;
  return {event};
}

Events setting_void_events(const Bench& bench, const Entry& entry) {
  Json event = setting_event(*find_setting(bench, entry.body.at("setting").get<std::int64_t>()));
  event.update({{"good", false}, {"state", name(State::voided)}, {"reason", entry.body.at("reason")}});
  return {event};
}

Events setting_correct_events(const Bench& bench, const Entry& entry) {
  Json event = setting_event(*find_setting(bench, entry.body.at("setting").get<std::int64_t>()));
  event["reason"] = entry.body.at("reason");
  return {event};
}

Events stage_events(const Bench&, const Entry& entry) {
  Json event = picked(entry, "stage", {"engine", "features"});
  event["seq"] = entry.seq;
  event["stage"] = entry.body.at("name");
  return {event};
}

/// The first version of a spec comes with its engine and is no event of its own.
Events spec_events(const Bench&, const Entry& entry) {
  if (!seq_at(entry.body, "previous")) return {};
  Json event = picked(entry, "spec", {"engine", "title", "reason", "previous"});
  event["seq"] = entry.seq;
  return {event};
}

Events send_events(const Bench&, const Entry& entry) {
  Json event = picked(entry, "send", {"engine", "features", "to", "ask", "unit"});
  event.update({{"seq", entry.seq},
                {"size_mm", mm(length_at(entry.body, "size_pm"))},
                {"within_mm", mm(length_at(entry.body, "within_pm"))}});
  return {event};
}

Events alert_events(const Bench& bench, const Entry& entry) {
  const std::int64_t id = entry.body.value("alert", entry.seq);
  const auto alert = std::ranges::find(bench.alerts, id, &Alert::id);
  if (alert == bench.alerts.end()) return {};
  const bool told = entry.body.at("kind") == "alert_end" && alert->state == AlertState::cleared;
  return told ? Events{} : Events{alert_json(*alert)};
}

Events fault_events(const Bench&, const Entry& entry) {
  return {picked(entry, "fault", {"gauge", "why", "text", "raw", "bytes", "count"})};
}

Events await_end_events(const Bench&, const Entry& entry) {
  Json event = picked(entry, "fault", {"gauge", "raw", "bytes"});
  event.update({{"why", "not_set"}, {"count", 1}, {"bytes", 0}, {"raw", ""}});
  event["text"] = "the waiting for the master ended (" + entry.body.at("why").get<std::string>() + "): nothing was set";
  return {event};
}

/// Entries that are told as they are: these keys, and the seq.
const std::map<std::string, std::vector<const char*>, std::less<>>& told_plainly() {
  static const std::map<std::string, std::vector<const char*>, std::less<>> table = {
      {"answer", {"engine", "feature", "index", "label", "answer", "note"}},
      {"attach", {"engine", "file", "bytes", "sha256"}},
      {"decide", {"engine", "text", "remedy", "reason", "operator"}},
      {"import", {"engine", "file", "sha256", "rows", "claimed_by"}},
      {"install", {"engine", "feature", "index", "label", "part", "half", "places"}},
      {"mate",
       {"engine", "fit", "inside", "index", "label", "outside", "outside_index", "outside_label", "lost", "freed"}},
      {"note", {"engine", "gauge", "feature", "index", "label", "level", "axis", "text", "operator"}},
      {"receive", {"engine", "features"}},
      {"setup", {"engine", "feature", "stage", "setup"}},
      {"temperature", {"engine", "features", "part", "gauge_at", "within"}}};
  return table;
}

using Make = Events (*)(const Bench&, const Entry&);

const std::map<std::string, Make, std::less<>>& makers() {
  static const std::map<std::string, Make, std::less<>> table = {{"reading", reading_events},
                                                                 {"void", change_events},
                                                                 {"keep", change_events},
                                                                 {"doubt", change_events},
                                                                 {"move", move_events},
                                                                 {"place", place_events},
                                                                 {"common", place_events},
                                                                 {"engine_use", engine_events},
                                                                 {"link", link_events},
                                                                 {"setting", setting_events},
                                                                 {"master_study", master_study_events},
                                                                 {"on_master", master_study_events},
                                                                 {"turns_void", master_study_events},
                                                                 {"stage", stage_events},
                                                                 {"spec", spec_events},
                                                                 {"send", send_events},
                                                                 {"alert", alert_events},
                                                                 {"alert_end", alert_events},
                                                                 {"alert_clear", alert_events},
                                                                 {"setting_void", setting_void_events},
                                                                 {"setting_correct", setting_correct_events},
                                                                 {"resized", change_events},
                                                                 {"fault", fault_events},
                                                                 {"await_end", await_end_events}};
  return table;
}

}  // namespace

Json reading_event(const Bench& bench, std::int64_t seq) {
  const Reading& reading = *find_reading(bench, seq);
  Json event = reading_json(reading, false, false);
  event.update({{"event", "reading"},
                {"verdict", nullptr},
                {"to_go_mm", nullptr},
                {"to_file_mm", nullptr},
                {"same_as", nullptr}});
  if (reading.engine && reading.place) {
    const Engine& engine = bench.engines.at(*reading.engine);
    const CountingMap counts = counting(engine);
    event["same_as"] = or_null(same_as(engine, reading));
    const auto here = counts.find(*reading.place);
    event["counts"] = here != counts.end() && std::find(here->second.seqs.begin(), here->second.seqs.end(),
                                                        reading.seq) != here->second.seqs.end();
    const Feature& feature = *engine.spec->find(reading.place->feature);
    if (feature.kind != Kind::check) {
      const auto verdict = judge_feature(engine, counts, feature, reading.place->index).verdict;
      if (verdict) event["verdict"] = name(*verdict);
      const auto left = to_go(engine, counts, *reading.place);
      event["to_go_mm"] = left ? mm(left->clearance) : Json(nullptr);
      event["to_file_mm"] = mm(to_file(feature, reading));
    }
  }
  return event;
}

std::vector<Json> events_of(const Bench& bench, const Entry& entry) {
  const auto& kind = entry.body.at("kind").get_ref<const std::string&>();
  if (const auto plain = told_plainly().find(kind); plain != told_plainly().end()) {
    Json event = picked(entry, kind, plain->second);
    event["seq"] = entry.seq;
    return {event};
  }
  const auto found = makers().find(kind);
  return found == makers().end() ? Events{} : found->second(bench, entry);
}

}  // namespace tenth
