#include "daemon/ports/gauge_feed.hpp"

#include <spdlog/spdlog.h>

#include "schema/json/escape.hpp"

namespace tenth {

GaugeFeed::GaugeFeed(boost::asio::any_io_executor loop, Desk& desk, const Gauge& gauge, const Profile& profile)
    : desk_(desk),
      name_(gauge.name),
      channel_(gauge.channel),
      settle_ms_(profile.trigger.settle_ms),
      valve_timer_(loop) {
  LiveGauge& live = desk_.live(name_);
  const int recorders = live.recorders;
  live = {};
  live.recorders = recorders;
  live.shows_values = is_live(profile);
  if (profile.trigger.by == SentBy::poll) live.every_ms = profile.trigger.every_ms;
  if (!live.shows_values) return;
  live_ = std::make_unique<LiveFeed>(
      std::move(loop), desk_, gauge, profile.speaks == Speaks::modbus || !profile.trigger.ask.empty(),
      LiveFeed::Tell{[this](drivers::Fault fault, const Instant& at) { take(std::move(fault), at); },
                     [this](const std::string& state, const std::string& why) { mood(state, why); }});
}

void GaugeFeed::link(const std::string& state, const std::string& given, const std::string& device) {
  const std::string why = printable(valid_utf8(given));  // it may name a foreign program
  if (live_ && state == "open") live_->opened();
  LiveGauge& live = desk_.live(name_);
  if (live.state == state && live.why == why) return;
  live.state = state;
  live.why = why;
  if (state == "open")
    spdlog::info("gauge {}: port open {}", printable(name_), printable(device));
  else
    spdlog::warn("gauge {}: port gone: {}", printable(name_), why);
  desk_.happen("daemon",
               [name = name_, state, why, device](Draft& draft) { take_link(draft, name, state, why, device); });
}

void GaugeFeed::mood(const std::string& state, const std::string& why) {
  LiveGauge& live = desk_.live(name_);
  if (live.state == state || live.state == "gone") return;
  live.state = state;
  live.why = why;
  desk_.tell({{"event", "gauge"}, {"gauge", name_}, {"state", state}, {"why", text_or_null(why)}, {"device", nullptr}});
}

void GaugeFeed::take(const drivers::Measurement& measurement, bool damaged, const Instant& arrived,
                     const BurstSeqs& burst) {
  desk_.live(name_).last_frame_ns = arrived.mono_ns;
  if (live_) return live_->take({measurement, arrived});
  Frame frame;
  frame.gauge = name_;
  frame.measurement = measurement;
  frame.damaged = damaged;
  frame.arrived = arrived;
  frame.dropped = std::exchange(dropped_, 0);
  frame.settle_ms = settle_ms_;
  if (last_frame_ns_) frame.since_last_ns = arrived.mono_ns - *last_frame_ns_;
  last_frame_ns_ = arrived.mono_ns;
  const std::size_t own = burst->size();
  burst->push_back(0);
  desk_.frame(std::move(frame), [burst, own](std::int64_t seq) { (*burst)[own] = seq; });
  press_for_others(arrived);
}

/// Gauges that show their values and have this one's button give what they show now.
void GaugeFeed::press_for_others(const Instant& arrived) {
  for (const auto& [name, gauge] : desk_.bench().gauges) {
    if (gauge.dropped || gauge.button != name_) continue;
    const LiveValue* const value = desk_.live(name).now_shown(arrived.mono_ns);
    if (value == nullptr) {
      desk_.tell({{"event", "fault"},
                  {"gauge", name},
                  {"why", "stale"},
                  {"text", "it shows no value now"},
                  {"raw", ""},
                  {"bytes", 0},
                  {"count", 1}});
      continue;
    }
    Frame frame;
    frame.gauge = name;
    frame.measurement = value->measurement;
    frame.arrived = arrived;
    desk_.frame(std::move(frame), [](std::int64_t) {});
  }
}

void GaugeFeed::take(drivers::Fault fault, const Instant& arrived) {
  dropped_ += fault.bytes;
  desk_.live(name_).faulty = true;
  if (!valve_.admit(fault, arrived.mono_ns)) return watch_valve();
  spdlog::warn("gauge {}: {} ({} bytes)", printable(name_), printable(fault.text), fault.bytes);
  desk_.happen("gauge", [told = PortFault{name_, std::move(fault), 1}](Draft& draft) { take_fault(draft, told); });
}

/// What is held back is told when its minute is over, though nothing more comes.
void GaugeFeed::watch_valve() {
  if (std::exchange(watches_valve_, true)) return;
  valve_timer_.expires_after(std::chrono::nanoseconds(drivers::Valve::kMinute_ns));
  valve_timer_.async_wait([this, alive = std::weak_ptr(alive_)](const boost::system::error_code& error) {
    if (error || alive.expired()) return;
    watches_valve_ = false;
    release_faults(false);
  });
}

void GaugeFeed::release_faults(bool all) {
  for (const drivers::Held& each : all ? valve_.release_all() : valve_.release(desk_.clock().now().mono_ns)) {
    drivers::Fault fault{each.why, "held back, more than ten in a minute", "", each.bytes};
    desk_.happen("gauge",
                 [told = PortFault{name_, std::move(fault), each.count}](Draft& draft) { take_fault(draft, told); });
  }
}

void GaugeFeed::stopped() {
  last_frame_ns_.reset();
  if (live_) live_->stopped();
}

void GaugeFeed::tell_wire(const std::string& to, const std::string& bytes, const Instant& at) {
  if (desk_.live(name_).recorders == 0) return;
  desk_.tell({{"event", "wire"}, {"gauge", name_}, {"to", to}, {"mono_ns", at.mono_ns}, {"bytes", bytes}});
}

}  // namespace tenth
