#pragma once

#include <boost/asio/awaitable.hpp>
#include <boost/asio/steady_timer.hpp>
#include <functional>
#include <map>
#include <memory>
#include <string>

#include "daemon/desk.hpp"
#include "drivers/burst.hpp"
#include "drivers/decoder.hpp"
#include "drivers/link/link.hpp"
#include "drivers/valve.hpp"

namespace tenth {

/// Opens the port of one gauge: real, or scripted by a test.
using OpenLink = std::function<Result<std::unique_ptr<drivers::Link>>(const boost::asio::any_io_executor&, const std::string& port)>;

/// One gauge's port: opened, read, decoded, handed to the desk; found again when it went away. It never gives up.
class GaugeSession : public std::enable_shared_from_this<GaugeSession> {
 public:
  GaugeSession(boost::asio::any_io_executor loop, Desk& desk, OpenLink open, const Gauge& gauge);

  /// Opens the port at once where it is there, so that a gauge just added loses nothing, then keeps at it.
  void start();
  /// Takes what the port has received and nobody read yet, if the desk has room for it.
  void take_rest();
  /// A part frame becomes a fault; the port is closed.
  void stop();

 private:
  /// Keeps the session alive while it runs: by value, for a coroutine must own what it uses.
  static boost::asio::awaitable<void> run(std::shared_ptr<GaugeSession> self);
  void try_open();
  void take(const drivers::Chunk& chunk);
  void take(drivers::Judged judged, const Instant& arrived);
  void take(const drivers::Measurement& measurement, bool damaged, const Instant& arrived);
  void take(drivers::Fault fault, const Instant& arrived);
  void release_faults(std::vector<drivers::Held> held);
  void gone(const std::string& why);
  void tell_state(const std::string& state, const std::string& why, const std::string& device);

  /// What the frames of the burst under way became: if a fault follows in it, they are damaged too. 0: nothing.
  struct BurstFrames {
    std::int64_t last_ns = 0;
    std::shared_ptr<std::vector<std::int64_t>> seqs;
  };

  boost::asio::any_io_executor loop_;
  Desk& desk_;
  OpenLink open_;
  std::string name_, port_;
  std::optional<Unit> unit_;
  const drivers::Format* format_;
  std::unique_ptr<drivers::Link> link_;
  std::unique_ptr<drivers::Decoder> decoder_;
  drivers::Burst burst_;
  drivers::Valve valve_;
  BurstFrames burst_frames_;
  std::optional<std::int64_t> last_frame_ns_;
  std::size_t dropped_ = 0;
  boost::asio::steady_timer timer_;
  bool stopped_ = false, told_full_ = false, absent_ = true;
};

/// The sessions of all gauges with a port; follows the ledger as gauges are added and dropped.
class GaugeSessions {
 public:
  GaugeSessions(boost::asio::any_io_executor loop, Desk& desk, OpenLink open)
      : loop_(std::move(loop)), desk_(desk), open_(std::move(open)) {}
  void start_all(const Bench& bench);
  void follow(const Entry& entry, const Bench& bench);
  /// Nothing that the ports received is left behind.
  void stop_all();

 private:
  void start(const Gauge& gauge);
  boost::asio::any_io_executor loop_;
  Desk& desk_;
  OpenLink open_;
  std::map<std::string, std::shared_ptr<GaugeSession>> sessions_;
};

}  // namespace tenth
