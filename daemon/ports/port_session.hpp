#pragma once

#include <boost/asio/awaitable.hpp>
#include <boost/asio/steady_timer.hpp>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "daemon/desk.hpp"
#include "daemon/ports/gauge_feed.hpp"
#include "drivers/burst.hpp"
#include "drivers/catalog.hpp"
#include "drivers/link/link.hpp"

namespace tenth {

/// Opens a port by the name that `gauge add` took, with the line settings of a profile: real, or scripted by a test.
using OpenLink = std::function<Result<std::unique_ptr<drivers::Link>>(const boost::asio::any_io_executor&,
                                                                      const std::string& port, const Profile& profile)>;

/// One port and the gauges behind it: opened, read, decoded, handed to their feeds; found again when it went away. It
/// never gives up.
class PortSession : public std::enable_shared_from_this<PortSession> {
 public:
  /// A port that brings more than this in a second is flooded: it is read no further until the second is over.
  static constexpr std::size_t kFlood = std::size_t{1024} * 1024;

  PortSession(boost::asio::any_io_executor loop, Desk& desk, OpenLink open, std::string port, Profile profile,
              std::optional<Unit> unit);

  /// Opens the port at once where it is there, so that a gauge just added loses nothing, then keeps at it.
  void start();
  void add(const Gauge& gauge);
  void remove(const std::string& gauge);
  bool serves(const std::string& gauge) const;
  bool is_last(const std::string& gauge) const { return feeds_.size() == 1 && serves(gauge); }
  /// Takes what the port has received and nobody read yet, if the desk has room for it.
  void take_rest();
  /// A part frame becomes a fault; the port is closed.
  void stop();

 private:
  /// They keep the session alive while they run: by value, for a coroutine must own what it uses.
  static boost::asio::awaitable<void> run(std::shared_ptr<PortSession> self);
  static boost::asio::awaitable<void> poll(std::shared_ptr<PortSession> self, std::shared_ptr<drivers::Link> link);
  boost::asio::awaitable<void> connect();
  boost::asio::awaitable<void> wait_to_try();
  boost::asio::awaitable<void> wait_for_the_flood(std::int64_t since_ns);

  void try_open();
  void opened();
  void not_open(const Refusal& refusal);
  void take(const drivers::Chunk& chunk);
  void take_events(std::vector<drivers::Event> events, const Instant& arrived);
  void take(drivers::Judged judged, const Instant& arrived);
  void take_fault(drivers::Fault fault, const Instant& arrived, bool in_burst);
  bool ask(drivers::Link& link);
  bool no_answer();
  void watch_silence();
  void watch_pause();
  void gone(const std::string& why);
  void tell_full();
  void mood(const std::string& state, const std::string& why);
  GaugeFeed* feed_of(const std::string& channel);

  boost::asio::any_io_executor loop_;
  Desk& desk_;
  OpenLink open_;
  std::string port_;
  Profile profile_;
  std::optional<Unit> unit_;
  std::vector<std::unique_ptr<GaugeFeed>> feeds_;  ///< in the order of being added
  std::shared_ptr<drivers::Link> link_;            ///< perhaps still connecting
  std::unique_ptr<drivers::Decoder> decoder_;
  drivers::Burst burst_;
  BurstSeqs burst_seqs_;
  std::int64_t burst_ns_ = 0, last_chunk_ns_ = 0, opened_ns_ = 0;
  bool asks_ = false, asked_ = false;  ///< it is a format of questions; one is open
  boost::asio::steady_timer timer_, answer_timer_, silence_timer_, pause_timer_, flood_timer_;
  std::int64_t second_ns_ = 0;  ///< when the second began that bytes are counted in
  std::size_t in_second_ = 0;
  bool stopped_ = false, told_full_ = false, soon_ = true;  ///< the next try
};

}  // namespace tenth
