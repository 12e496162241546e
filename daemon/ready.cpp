#include <algorithm>

#include "daemon/acts/standing.hpp"
#include "daemon/queries.hpp"
#include "rules/couples.hpp"
#include "rules/figure.hpp"

namespace tenth {
namespace {

Json ready(const char* act, const std::string& text) {
  return {{"act", act},       {"feature", nullptr},      {"index", nullptr},      {"label", nullptr},
          {"gauge", nullptr}, {"places", Json::array()}, {"seqs", Json::array()}, {"text", text}};
}

/// A gauge with a setting that no longer vouches for anything, or one that has none yet.
void add_gauges(Json& list, const Bench& bench, const Engine& engine) {
  for (const auto& [name, gauge] : bench.gauges) {
    if (gauge.dropped) continue;
    const bool unset = gauge.reads == Reads::deviation && !gauge.setting;
    const bool open_readings = std::any_of(engine.readings.begin(), engine.readings.end(), [&](const Reading& reading) {
      return reading.gauge == name && reading.state == State::kept && reading.setting && !reading.closed;
    });
    if (!unset && !gauge.drifted && !open_readings) continue;
    Json item = unset || gauge.drifted
                    ? ready("set", "set gauge " + name + " on its master")
                    : ready("recheck", "check gauge " + name + " on its master: its readings are unconfirmed");
    item["gauge"] = name;
    list.push_back(std::move(item));
  }
}

/// A feature that a check must come before waits for its answer.
bool waits(const Engine& engine, const Feature& feature) {
  for (const Feature& check : engine.spec->features)
    for (int index = 1; check.kind == Kind::check && index <= check.count(); ++index)
      if (std::find(check.before.begin(), check.before.end(), feature.name) != check.before.end() &&
          !satisfied(engine, {check.name, index, "", ""}))
        return true;
  return false;
}

/// What must be done before the feature is measured was not said; or its parts are not here.
void add_setup(Json& list, const Engine& engine, const Feature& feature) {
  if (is_set_up(engine, feature)) return;
  Json item =
      ready("set_up", "set up " + feature.name + ": " + feature.setup + ", then tenth setup " + feature.name + " yes");
  item["feature"] = feature.name;
  list.push_back(std::move(item));
}

void add_away(Json& list, const Engine& engine, const Feature& feature) {
  Json item = ready("receive", feature.name + " is at " + engine.sent.at(feature.name).to +
                                   "; when it is back: tenth receive " + feature.name);
  item["feature"] = feature.name;
  list.push_back(std::move(item));
}

void add_index(Json& list, const Engine& engine, const Feature& feature, int index) {
  Json places = Json::array();
  for (const Place& place : places_of(feature, index))
    if (!satisfied(engine, place)) places.push_back(slashed(place, *engine.spec));
  if (places.empty()) return;
  const std::string& label = label_of(feature, index);
  const std::string what = feature.count() > 1 ? feature.name + " " + label : feature.name;
  const bool check = feature.kind == Kind::check;
  Json item = check ? ready("answer", "answer " + what)
                    : ready("measure", "measure " + what + ": " + std::to_string(places.size()) + " places");
  item.update({{"feature", feature.name}, {"index", index}, {"label", label}, {"places", places}});
  list.push_back(std::move(item));
}

void add_suspects(Json& list, const Engine& engine) {
  for (const Reading& reading : engine.readings) {
    if (reading.state != State::suspect) continue;
    Json item = ready("decide", "decide on reading " + std::to_string(reading.seq) +
                                    (reading.place ? " at " + spoken(*reading.place, *engine.spec)
                                                   : std::string(" without a place")) +
                                    ": keep, void or move");
    item["seqs"].push_back(reading.seq);
    list.push_back(std::move(item));
  }
}

/// Somebody gave its mate to another: until it has one again its fit stays incomplete.
void add_mateless(Json& list, const Engine& engine) {
  for (const Fit& fit : engine.spec->fits)
    for (const Couple& couple : couples_of(engine, fit)) {
      if (couple.outside_index != 0) continue;
      const std::string& label = label_of(*engine.spec->find(fit.inside), couple.inside_index);
      Json item = ready("mate", "give " + fit.inside + " " + label + " a " + fit.outside + ": tenth mate " + fit.name +
                                    " " + label + " INDEX");
      item.update({{"feature", fit.inside}, {"index", couple.inside_index}, {"label", label}});
      list.push_back(std::move(item));
    }
}

}  // namespace

Json ready_json(const View& view, const Engine& engine) {
  Json list = Json::array();
  add_suspects(list, engine);
  add_gauges(list, view.bench, engine);
  for (const Feature& feature : engine.spec->features) {
    add_setup(list, engine, feature);
    if (is_away(engine, feature.name)) {
      add_away(list, engine, feature);
      continue;
    }
    for (int index = 1; index <= feature.count(); ++index)
      if (!waits(engine, feature)) add_index(list, engine, feature, index);
  }
  add_mateless(list, engine);
  return list;
}

}  // namespace tenth
