#include "daemon/ports/live_feed.hpp"

#include <chrono>

#include "daemon/acts/take.hpp"

namespace tenth {

namespace {

using std::chrono::nanoseconds;

}  // namespace

LiveFeed::LiveFeed(boost::asio::any_io_executor loop, Desk& desk, const Gauge& gauge, bool asks, Tell tell)
    : desk_(desk),
      name_(gauge.name),
      capture_(gauge.capture),
      continuous_(!asks),
      tell_(std::move(tell)),
      settled_(gauge.settle_band, gauge.settle_for_ms),
      later_(loop),
      silence_(loop) {}

void LiveFeed::opened() {
  quiet_since_ns_ = desk_.clock().now().mono_ns;
  if (continuous_ && !watches_) watch_silence(kSilent_ns);
}

void LiveFeed::take(LiveValue value) {
  const std::int64_t now_ns = quiet_since_ns_ = value.at.mono_ns;
  live().faulty = false;
  live().shown.push_back(std::move(value));
  if (live().shown.size() > stream::Rocking::kMost) live().shown.pop_front();
  if (live().state == "silent") tell_.mood("open", "");
  if (continuous_ && !watches_) watch_silence(kSilent_ns);
  tell_in_time(now_ns);
  capture(live().shown.back());
}

void LiveFeed::tell_in_time(std::int64_t now_ns) {
  if (tells_later_) return;
  const std::int64_t early_ns = last_told_ns_ + kTellEvery_ns - now_ns;
  if (last_told_ns_ == 0 || early_ns <= 0) return tell_value();
  tells_later_ = true;
  later_.expires_after(nanoseconds(early_ns));
  later_.async_wait([this, alive = std::weak_ptr(alive_)](const boost::system::error_code& error) {
    if (error || alive.expired() || !tells_later_) return;
    tells_later_ = false;
    tell_value();
  });
}

void LiveFeed::tell_value() {
  last_told_ns_ = desk_.clock().now().mono_ns;
  const drivers::Measurement& value = live().shown.back().measurement;
  const auto& gauges = desk_.bench().gauges;
  const auto gauge = gauges.find(name_);
  if (gauge == gauges.end()) return;
  desk_.tell({{"event", "live"},
              {"gauge", name_},
              {"text", value.text},
              {"unit", name(value.unit)},
              {"value_mm", mm(value.value)},
              {"size_mm", mm(size_of(&gauge->second, value.value))}});
}

/// One timer for the whole stream: it looks when the newest value came, and waits for what is left.
void LiveFeed::watch_silence(std::int64_t in_ns) {
  watches_ = true;
  silence_.expires_after(nanoseconds(in_ns));
  silence_.async_wait([this, alive = std::weak_ptr(alive_)](const boost::system::error_code& error) {
    if (error || alive.expired() || !watches_) return;
    watches_ = false;
    const Instant now = desk_.clock().now();
    const std::int64_t quiet_ns = now.mono_ns - quiet_since_ns_;
    if (quiet_ns < kSilent_ns) return watch_silence(kSilent_ns - quiet_ns);
    tell_.fault({drivers::FaultReason::silent, "the gauge has sent nothing for 2 s", "", 0}, now);
    tell_.mood("silent", "it has sent nothing for 2 s");
    answer(rocking_ ? rocking_->stopped() : std::nullopt, now);
  });
}

void LiveFeed::stopped() {
  const Instant now = desk_.clock().now();
  silence_.cancel();
  later_.cancel();
  watches_ = tells_later_ = false;
  answer(rocking_ ? rocking_->stopped() : std::nullopt, now);
  live().shown.clear();
}

void LiveFeed::capture(const LiveValue& value) {
  const stream::Sample sample{value.at.mono_ns, value.measurement.value};
  if (capture_ == Capture::turning) {
    if (!rocking_) rocking_.emplace(turning_step(value));
    answer(rocking_->take(sample), value.at);
  }
  if (capture_ == Capture::settled && settled_.take(sample)) {
    Frame frame;
    frame.gauge = name_;
    frame.measurement = value.measurement;
    frame.arrived = value.at;
    desk_.frame(std::move(frame), [](std::int64_t) {});
  }
}

void LiveFeed::answer(const std::optional<stream::Rocking::Answer>& answer, const Instant& at) {
  if (!answer) return;
  if (!*answer) {
    const std::string reason(stream::name(answer->error()));
    const stream::Explained told = stream::explain(answer->error());
    return tell_.fault({drivers::FaultReason::turning, reason + ": " + told.what + "; " + told.remedy, "", 0}, at);
  }
  std::vector<LiveValue> shown;
  for (const LiveValue& value : live().shown)
    if (value.at.mono_ns >= rocking_->samples().front().at_ns && value.at.mono_ns <= rocking_->samples().back().at_ns)
      shown.push_back(value);
  if (!shown.empty()) desk_.frame(turned_frame(name_, shown, **answer), [](std::int64_t) {});
}

}  // namespace tenth
