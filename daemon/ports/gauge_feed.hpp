#pragma once

#include <boost/asio/steady_timer.hpp>
#include <memory>
#include <string>
#include <vector>

#include "daemon/desk.hpp"
#include "daemon/ports/live_feed.hpp"
#include "drivers/valve.hpp"
#include "schema/profile/profile.hpp"

namespace tenth {

/// What the frames of the burst under way became: if a fault follows in it, they are damaged too. 0: nothing.
using BurstSeqs = std::shared_ptr<std::vector<std::int64_t>>;

/// One gauge behind a port: what comes from it is handed to the desk, or shown.
class GaugeFeed {
 public:
  GaugeFeed(boost::asio::any_io_executor loop, Desk& desk, const Gauge& gauge, const Profile& profile);

  const std::string& name() const { return name_; }
  const std::string& channel() const { return channel_; }

  /// `open` or `gone`: an entry of the ledger, where it changes. `device` is the converter behind the port.
  void link(const std::string& state, const std::string& why, const std::string& device);
  /// The other side of the port is being looked for: shown, no entry.
  void connecting() { desk_.live(name_).why = "connecting"; }
  /// `silent`, `flooding` or `open` again, while the port is open: told, no entry.
  void mood(const std::string& state, const std::string& why);

  void take(const drivers::Measurement& measurement, bool damaged, const Instant& arrived, const BurstSeqs& burst);
  void take(drivers::Fault fault, const Instant& arrived);
  /// Faults held back in minutes that are over; all, where the port closes for good.
  void release_faults(bool all);
  /// Nothing comes from it any more for now.
  void stopped();
  /// What crossed its wire, for those who record it.
  bool is_recorded() const { return desk_.live(name_).recorders > 0; }
  void tell_wire(const std::string& to, const std::string& bytes, const Instant& at);

 private:
  void press_for_others(const Instant& arrived);
  void watch_valve();

  Desk& desk_;
  std::string name_, channel_;
  std::optional<std::int64_t> settle_ms_;
  drivers::Valve valve_;
  boost::asio::steady_timer valve_timer_;
  bool watches_valve_ = false;
  std::shared_ptr<bool> alive_ = std::make_shared<bool>(true);  ///< the timer may have run out and be on its way
  std::unique_ptr<LiveFeed> live_;                              ///< where its frames are live values
  std::optional<std::int64_t> last_frame_ns_;
  std::size_t dropped_ = 0;
};

}  // namespace tenth
