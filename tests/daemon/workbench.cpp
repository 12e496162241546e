#include "tests/daemon/workbench.hpp"

#include <gtest/gtest.h>

namespace tenth {

const char* const kTwin = R"(
title = "Twin for tests"
unit = "mm"
[layout]
cylinders = 2
mains = 3
[feature.bore]
count = "cylinders"
kind = "inside"
limits = [83.000, 83.035]
levels = ["top", "bottom"]
axes = ["thrust", "pin"]
out_of_round = 0.010
[feature.piston]
count = "cylinders"
kind = "outside"
limits = [82.940, 82.960]
[feature.main_journal]
count = "mains"
kind = "outside"
limits = [59.980, 60.000]
presses = 2
[feature.ring_gap]
count = "cylinders"
kind = "gap"
limits = [0.30, 0.45]
[feature.oil_ways_clear]
kind = "check"
before = ["piston"]
[fit.piston_clearance]
inside = "bore"
outside = "piston"
limits = [0.045, 0.075]
target = 0.060
)";

Workbench::Workbench() {
  decide("daemon", [](Draft& draft) { draft.append("ledger", {{"id", "00"}, {"format", 1}}); });
}

void Workbench::decide(const std::string& via, const std::function<void(Draft&)>& happening) {
  Draft draft(bench, {"tester", 1000, via}, now, "boot", rules, live);
  happening(draft);
  tell_alerts(draft);
  last = draft.take();
}

Result<Json> Workbench::act(Decided (*what)(Draft&, const Json&), const Json& params) {
  Decided decided = refuse("none", "", "");
  decide("socket", [&](Draft& draft) { decided = what(draft, params); });
  if (!decided) {
    EXPECT_TRUE(last.empty()) << "an act that was refused left entries behind";
    return tl::unexpected(decided.error());
  }
  return (*decided)(view());
}

void Workbench::press(const std::string& gauge, const std::string& number, Unit unit) {
  Frame frame;
  frame.gauge = gauge;
  frame.measurement = {number, number, length_from_decimal(number, unit).value(), unit, true};
  press(std::move(frame));
}

void Workbench::press(Frame frame) {
  frame.arrived = now;
  decide("gauge", [&](Draft& draft) { take_frame(draft, frame); });
  pass(1);
}

void Workbench::fault(const std::string& gauge) {
  decide("gauge",
         [&](Draft& draft) { take_fault(draft, {gauge, {drivers::FaultReason::noise, "noise", "\x80", 1}, 1}); });
}

void Workbench::damage(const std::vector<std::int64_t>& seqs) {
  decide("daemon", [&](Draft& draft) { doubt_damaged(draft, seqs); });
}

void Workbench::link(const std::string& gauge, const std::string& state) {
  decide("daemon", [&](Draft& draft) { take_link(draft, gauge, state, "test", ""); });
}

void Workbench::add_engine(const std::string& name, const std::string& spec) {
  const auto added = act(engine_add, {{"name", name}, {"file", "spec.toml"}, {"text", spec}});
  ASSERT_TRUE(added) << added.error().message;
}

void Workbench::add_gauge(const std::string& name, const Json& more) {
  Json params = {{"name", name}, {"port", "/dev/" + name}, {"profile", "line"}, {"gauge_unit", "mm"}};
  params.update(more);
  const auto added = act(gauge_add, params);
  ASSERT_TRUE(added) << added.error().message;
}

const Reading& Workbench::last_reading() const {
  return *find_reading(bench, bench.reading_index.rbegin()->first);
}

Place Workbench::place(const std::optional<std::string>& gauge) const {
  return standing_of(bench, gauge).place.value_or(Place{"none", 0, "", ""});
}

std::string Workbench::standing(const std::optional<std::string>& gauge) const {
  const Standing& standing = standing_of(bench, gauge);
  return standing.place ? slashed(*standing.place, *bench.engines.at(*standing.engine).spec) : "none";
}

std::vector<std::string> Workbench::kinds() const {
  std::vector<std::string> kinds;
  for (const Entry& entry : last) kinds.push_back(entry.body.at("kind"));
  return kinds;
}

std::string doubts(const Reading& reading) {
  std::string words;
  for (const Doubt doubt : reading.doubts) words += (words.empty() ? "" : " ") + std::string(name(doubt));
  return words;
}

}  // namespace tenth
