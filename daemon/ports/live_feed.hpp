#pragma once

#include <boost/asio/steady_timer.hpp>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "daemon/desk.hpp"
#include "rules/stream/rocking.hpp"
#include "rules/stream/settled.hpp"
#include "schema/profile/profile.hpp"

namespace tenth {

/// The values of one gauge that shows them all the time: told as `live` events, kept for `take`, and made into readings
/// where the gauge was added with a `--capture`.
class LiveFeed {
 public:
  /// How it speaks of what is no value.
  struct Tell {
    std::function<void(drivers::Fault, const Instant&)> fault;
    std::function<void(const std::string& state, const std::string& why)> mood;
  };
  /// `live` events are told at most so often; the newest value always is.
  static constexpr std::int64_t kTellEvery_ns = 100'000'000;
  /// A gauge that sends by itself is silent after so long.
  static constexpr std::int64_t kSilent_ns = 2'000'000'000;

  LiveFeed(boost::asio::any_io_executor loop, Desk& desk, const Gauge& gauge, bool asks, Tell tell);

  void opened();
  void take(LiveValue value);
  /// The port is gone, or the gauge is silent.
  void stopped();

 private:
  void tell_value();
  void tell_in_time(std::int64_t now_ns);
  void watch_silence(std::int64_t in_ns);
  void capture(const LiveValue& value);
  void answer(const std::optional<stream::Rocking::Answer>& answer, const Instant& at);
  LiveGauge& live() const { return desk_.live(name_); }

  Desk& desk_;
  std::string name_;
  Capture capture_;
  bool continuous_;
  Tell tell_;
  std::optional<stream::Rocking> rocking_;  ///< made with the first value, which shows the step
  stream::Settled settled_;
  std::int64_t last_told_ns_ = 0, quiet_since_ns_ = 0;
  bool tells_later_ = false, watches_ = false;
  boost::asio::steady_timer later_, silence_;
  std::shared_ptr<bool> alive_ = std::make_shared<bool>(true);  ///< a timer that has run out may still be on its way
};

}  // namespace tenth
