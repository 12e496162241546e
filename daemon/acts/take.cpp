#include "daemon/acts/take.hpp"

#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/acts/settings.hpp"
#include "daemon/acts/standing.hpp"
#include "daemon/events.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/params.hpp"
#include "drivers/number.hpp"
#include "rules/decimal.hpp"
#include "rules/stream/packed.hpp"
#include "schema/wire/views.hpp"

namespace tenth {

namespace {

/// The number that a gauge whose frames are like this one would send if it showed one decimal more.
std::string shown_text(Length value, const drivers::Measurement& like) {
  const std::int64_t tenths = divide_rounded(Wide{value.pm()} * 10, like.step.magnitude().pm());
  const int places = 1 - drivers::last_place(like.text);
  std::string digits = std::to_string(std::abs(tenths));
  if (places < 0) digits.append(static_cast<std::size_t>(-places), '0');
  return decimal((tenths < 0) != (like.step < Length()), std::move(digits),
                 static_cast<std::size_t>(std::max(places, 0)));
}

/// The gauge asked for, else the only one that shows values.
Result<std::string> live_gauge(const Draft& draft, const std::optional<std::string>& asked) {
  std::vector<std::string> names;
  for (const auto& [name, live] : draft.live())
    if (live.shows_values && !draft.bench().gauges.at(name).dropped) names.push_back(name);
  if (!asked && names.size() == 1) return names.front();
  if (!asked && names.empty())
    return refuse("not_live", "no gauge shows its values all the time", "press the data button of yours");
  if (!asked) return wrong_words("gauge", "several gauges show values", "say which: --gauge " + names.front());
  TENTH_TRY(const Gauge* const gauge, gauge_named(draft.bench(), *asked));
  if (std::find(names.begin(), names.end(), gauge->name) != names.end()) return gauge->name;
  return refuse("not_live", "gauge `" + gauge->name + "` sends readings itself", "press its data button");
}

Result<Frame> shown_now(const Draft& draft, const std::string& name) {
  const LiveValue* const value = draft.live().at(name).now_shown(draft.now().mono_ns);
  if (value == nullptr)
    return refuse("stale", "gauge `" + name + "` shows no value now", "see `tenth status` for what it does");
  Frame frame;
  frame.gauge = name;
  frame.measurement = value->measurement;
  frame.arrived = value->at;
  return frame;
}

Result<Frame> rocked(const Draft& draft, const std::string& name, std::int64_t since_ns) {
  std::vector<LiveValue> shown;
  for (const LiveValue& value : draft.live().at(name).shown)
    if (value.at.mono_ns >= since_ns) shown.push_back(value);
  if (shown.empty())
    return refuse("stale", "gauge `" + name + "` showed no value", "see `tenth status` for what it does");
  const auto turning = stream::turning_point(samples_of(shown), turning_step(shown.back()));
  if (!turning) {
    const std::string reason(stream::name(turning.error()));
    const stream::Explained told = stream::explain(turning.error());
    return refuse(reason, reason + ": " + told.what, told.remedy);
  }
  return turned_frame(name, shown, *turning);
}

}  // namespace

std::vector<stream::Sample> samples_of(std::span<const LiveValue> shown) {
  std::vector<stream::Sample> samples;
  for (const LiveValue& value : shown) samples.push_back({value.at.mono_ns, value.measurement.value});
  return samples;
}

Length turning_step(const LiveValue& value) {
  return Length::from_pm(std::max<std::int64_t>(1, value.measurement.step.magnitude().pm() / 10));
}

Frame turned_frame(const std::string& gauge, std::span<const LiveValue> shown, const stream::Turning& turning) {
  const auto lowest = std::min_element(shown.begin(), shown.end(), [](const LiveValue& a, const LiveValue& b) {
    return a.measurement.value < b.measurement.value;
  });
  Frame frame;
  frame.gauge = gauge;
  frame.measurement = lowest->measurement;
  frame.measurement.value = turning.value;
  frame.measurement.text = shown_text(turning.value, lowest->measurement);
  frame.arrived = shown.back().at;
  frame.turned = Turned{turning, stream::pack(samples_of(shown))};
  return frame;
}

Decided take(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::optional<std::string> asked, params.maybe_text("gauge"));
  TENTH_TRY(const std::optional<std::int64_t> since_ns, params.maybe_number("since_ns"));
  TENTH_TRY(const std::string name, live_gauge(draft, asked));
  TENTH_TRY(const Frame frame, since_ns ? rocked(draft, name, *since_ns) : shown_now(draft, name));
  const auto& awaited = draft.bench().gauges.at(name).awaited;
  const std::string study = awaited ? awaited->study : "";
  const std::int64_t seq = take_frame(draft, frame);
  if (seq == 0) return refuse("refused", "the value is no setting", "see the fault that was told, and take it again");
  return [seq, name, study](const View& view) {
    if (find_reading(view.bench, seq) == nullptr) return on_master_answer(view.bench, seq, study);
    return Json{{"reading", reading_event(view.bench, seq)},
                {"place", place_event(view.bench, own_or_common(view.bench, name))}};
  };
}

}  // namespace tenth
