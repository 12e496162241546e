#include "sample_bench.hpp"

#include <memory>

namespace tenth::sample {
namespace {

Feature feature(const std::string& name, Kind kind, int count, Limits limits) {
  Feature f;
  f.name = name;
  f.kind = kind;
  f.limits = limits;
  f.labels.clear();
  for (int i = 1; i <= count; ++i) f.labels.push_back(std::to_string(i));
  return f;
}

Fit fit(const std::string& name, const std::string& inside, const std::string& outside, int count, Limits limits) {
  Fit f;
  f.name = name;
  f.inside = inside;
  f.outside = outside;
  f.limits = limits;
  for (int i = 1; i <= count; ++i) f.couples.push_back({i, i, ""});
  return f;
}

/// Adds readings to a bench, one seq after the other.
struct Measuring {
  Bench& bench;
  Engine& engine;
  std::int64_t seq = 20;

  Reading& add(const Place& place, Length size, const std::string& gauge) {
    Reading r = reading(++seq, place, size);
    r.engine = engine.name;
    r.gauge = gauge;
    r.setting = gauge == "bore gauge" ? std::optional<std::int64_t>(20) : std::nullopt;
    r.label = engine.spec->find(place.feature)->labels[static_cast<std::size_t>(place.index - 1)];
    bench.reading_index[r.seq] = {engine.name, engine.readings.size()};
    engine.readings.push_back(std::move(r));
    return engine.readings.back();
  }

  /// Every place of a feature, each a little off its nominal size in its own way.
  void all_of(const std::string& name, Length nominal, std::int64_t spread_um, const std::string& gauge) {
    const Feature& f = *engine.spec->find(name);
    for (int index = 1; index <= f.count(); ++index)
      for (const Place& place : places_of(f, index)) {
        const std::int64_t off = (seq * 7919 + index * 31) % (spread_um * 2 + 1) - spread_um;
        add(place, nominal + um(off), gauge);
      }
  }
};

Gauge gauge(const std::string& name, Reads reads, Measures measures, std::int64_t entry) {
  Gauge g;
  g.entry = entry;
  g.name = name;
  g.port = "hand";
  g.profile = "line-plain";
  g.reads = reads;
  g.measures = measures;
  g.resolution = um(1);
  g.uncertainty = um(2);
  g.serial = "S-" + std::to_string(entry);
  return g;
}

Setting setting(std::int64_t seq, const std::string& time, std::optional<Length> drift) {
  Setting s;
  s.seq = seq;
  s.time = time;
  s.gauge = "bore gauge";
  s.master = um(83'000);
  s.shown = drift.value_or(Length());
  s.drift = drift;
  if (drift) s.good = true;
  s.sets_zero = !drift;
  return s;
}

Alert cleared_alert(std::int64_t id) {
  Alert alert;
  alert.id = id;
  alert.time = "2026-03-01T09:40:00.000000Z";
  alert.cause.engine = kEngine;
  alert.cause.what = AlertWhat::doubtful;
  alert.cause.severity = Severity::look;
  alert.cause.subject = "bore 2";
  alert.cause.text = "bore 2: size 83.001 is within the uncertainty of the lower limit 83.000";
  alert.state = AlertState::cleared;
  alert.note = "honed last, brush will open it";
  alert.cleared_by = "second bench";
  return alert;
}

void grind(Measuring& m) {
  const std::int64_t stage_entry = ++m.seq;
  m.engine.stages["main_journal"] = {Stage{},
                                     Stage{"after grinding", stage_entry, true, "2026-03-04T09:15:00.000000Z"}};
  for (const char* level : {"front", "rear"})
    for (const char* axis : {"vertical", "horizontal"}) {
      Reading& r = m.add({"main_journal", 3, level, axis}, um(59'988), "micrometer");
      r.stage = "after grinding";
      r.stage_entry = stage_entry;
    }
}

void because(Reading& reading, const std::string& reason) {
  reading.reason = reason;
  reading.reason_by = "second <bench>";
  reading.reason_time = "2026-03-02T16:30:00.000000Z";
}

void slips(Measuring& m) {
  Reading& tenfold = m.add({"ring_gap_top", 6, "", ""}, um(3'500), "micrometer");
  tenfold.state = State::voided;
  tenfold.doubts = {Doubt::range, Doubt::tenfold};
  because(tenfold, "read the wrong line");
  Reading& moved = m.add({"bore", 6, "bottom", "pin"}, um(83'012), "bore gauge");
  moved.moved_from = Place{"bore", 5, "bottom", "pin"};
  because(moved, "pressed in the wrong bore");
  moved.moved_reason = "pressed in the wrong bore";
  moved.moved_by = moved.reason_by;
  moved.moved_time = moved.reason_time;
  Reading& kept = m.add({"piston", 6, "", ""}, um(82'955), "micrometer");
  kept.doubts = {Doubt::repeat};
  because(kept, "measured twice, <this> is right");
}

}  // namespace

Spec spec() {
  Spec s;
  s.title = "Demo: inline six, 2.6 litre";
  s.layout.cylinders = 6;
  s.layout.mains = 7;
  s.layout.viewed_from = "front";
  s.facts = {{"use", "endurance, naturally aspirated"}, {"oil", "10W-40"}};
  Feature bore = feature("bore", Kind::inside, 6, {um(83'000), um(83'035)});
  bore.size_text = "83 H7";
  bore.levels = {"top", "middle", "bottom"};
  bore.axes = {"thrust", "pin"};
  bore.out_of_round = um(12);
  bore.taper = um(16);
  bore.where = "plates fitted, bolts at torque";
  Feature bearing = feature("main_bearing", Kind::inside, 7, {um(60'020), um(60'040)});
  bearing.axes = {"vertical", "left", "right"};
  Feature journal = feature("main_journal", Kind::outside, 7, {um(59'980), um(60'000)});
  journal.levels = {"front", "rear"};
  journal.axes = {"vertical", "horizontal"};
  journal.source = "crank maker's sheet";
  Feature check = feature("oil_feed_clear", Kind::check, 1, {});
  s.features = {bore,    feature("piston", Kind::outside, 6, {um(82'940), um(82'960)}), bearing,
                journal, feature("ring_gap_top", Kind::gap, 6, {um(300), um(450)}),     check};
  Fit piston = fit("piston_clearance", "bore", "piston", 6, {um(50), um(80)});
  piston.target = um(60);
  piston.judge = JudgeBy::mean;
  s.fits = {piston, fit("main_clearance", "main_bearing", "main_journal", 7, {um(30), um(60)})};
  s.spreads = {{"main_journal", um(8), SpreadBy::means}};
  return s;
}

Reading reading(std::int64_t seq, const Place& place, Length size) {
  Reading r;
  r.seq = seq;
  const std::string minute = std::to_string(10 + seq % 50);
  r.time = "2026-03-01T08:" + minute + ":30.123456Z";
  r.hash = std::string(64, 'a');
  r.place = place;
  r.label = std::to_string(place.index);
  r.operator_name = "first bench";
  r.gauge = "micrometer";
  r.text = exact_mm(size);
  r.raw = "  " + r.text + " mm";
  r.value = size;
  r.size = size;
  r.stage = "as found";
  r.uncertainty = um(2);
  return r;
}

Bench bench() {
  Bench b;
  b.id = "000102030405060708090a0b0c0d0e0f";
  b.gauges["bore gauge"] = gauge("bore gauge", Reads::deviation, Measures::inside, 5);
  b.gauges["micrometer"] = gauge("micrometer", Reads::size, Measures::any, 6);
  Engine& engine = b.engines[kEngine];
  engine.name = kEngine;
  engine.spec_seq = 7;
  engine.spec = std::make_shared<const Spec>(spec());
  b.settings.push_back(setting(20, "2026-03-01T08:00:00.000000Z", std::nullopt));
  Measuring m{b, engine};
  m.all_of("bore", um(83'014), 6, "bore gauge");
  m.all_of("piston", um(82'952), 3, "micrometer");
  m.all_of("main_bearing", um(60'030), 4, "bore gauge");
  m.all_of("main_journal", um(59'988), 2, "micrometer");
  for (Reading& r : engine.readings)
    if (r.place->feature == "main_journal" && r.place->index == 3) r.size = *r.size + um(19);
  for (int index = 1; index <= 5; ++index) m.add({"ring_gap_top", index, "", ""}, um(330 + 20 * index), "micrometer");
  engine.answers[{"oil_feed_clear", 1}] = {Answer::yes, "blown through", ++m.seq, "2026-03-01T09:30:00.000000Z",
                                           "second bench"};
  grind(m);
  slips(m);
  b.alerts.push_back(cleared_alert(++m.seq));
  b.settings.push_back(setting(++m.seq, "2026-03-01T10:00:00.000000Z", um(1)));
  b.seq = m.seq;
  return b;
}

}  // namespace tenth::sample
