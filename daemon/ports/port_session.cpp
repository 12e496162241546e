#include "daemon/ports/port_session.hpp"

#include <spdlog/spdlog.h>

#include <algorithm>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <chrono>
#include <exception>

#include "schema/json/escape.hpp"

namespace tenth {

namespace {

namespace asio = boost::asio;
using std::chrono::milliseconds;

/// A port that is back, and that udev has given to our group, is open within a second; one that is there and refuses us
/// is asked every second.
constexpr milliseconds kSoon(500), kLater(1000);
constexpr milliseconds kFull(200);
constexpr std::int64_t kStayed_ns = 1'000'000'000;
constexpr auto kTuple = asio::as_tuple(asio::use_awaitable);

void log_error(const std::exception_ptr& error) {
  if (error) spdlog::critical("the session of a port ended by an error of ours");
}

}  // namespace

PortSession::PortSession(asio::any_io_executor loop, Desk& desk, OpenLink open, std::string port, Profile profile,
                         std::optional<Unit> unit)
    : loop_(std::move(loop)),
      desk_(desk),
      open_(std::move(open)),
      port_(std::move(port)),
      profile_(std::move(profile)),
      unit_(unit),
      timer_(loop_),
      answer_timer_(loop_),
      silence_timer_(loop_),
      pause_timer_(loop_),
      flood_timer_(loop_) {}

void PortSession::start() {
  try_open();
  asio::co_spawn(loop_, run(shared_from_this()), log_error);
}

void PortSession::add(const Gauge& gauge) {
  feeds_.push_back(std::make_unique<GaugeFeed>(loop_, desk_, gauge, profile_));
  if (link_ && link_->connected()) feeds_.back()->link("open", "", valid_utf8(link_->device()));
  if (link_ && !link_->connected()) feeds_.back()->connecting();
}

void PortSession::remove(const std::string& gauge) {
  for (const auto& feed : feeds_)
    if (feed->name() == gauge) {
      feed->stopped();
      feed->release_faults(true);
    }
  std::erase_if(feeds_, [&](const auto& feed) { return feed->name() == gauge; });
}

bool PortSession::serves(const std::string& gauge) const {
  return std::any_of(feeds_.begin(), feeds_.end(), [&](const auto& feed) { return feed->name() == gauge; });
}

asio::awaitable<void> PortSession::run(std::shared_ptr<PortSession> self) {
  PortSession& session = *self;
  while (!session.stopped_) {
    if (!session.link_) {
      co_await session.wait_to_try();
      if (!session.stopped_) session.try_open();
      continue;
    }
    if (!session.link_->connected()) {
      co_await session.connect();
      continue;
    }
    if (!session.desk_.has_room()) {
      session.tell_full();
      session.timer_.expires_after(kFull);
      co_await session.timer_.async_wait(kTuple);
      continue;
    }
    session.told_full_ = false;
    const std::shared_ptr<drivers::Link> link = session.link_;
    const drivers::Chunk chunk = co_await link->read();
    if (session.stopped_) break;
    session.take(chunk);
    if (chunk.gone) session.gone(chunk.why);
    if (session.in_second_ > kFlood) co_await session.wait_for_the_flood(session.second_ns_);
  }
}

asio::awaitable<void> PortSession::wait_to_try() {
  timer_.expires_after(soon_ ? kSoon : kLater);
  co_await timer_.async_wait(kTuple);
  for (const auto& feed : feeds_) feed->release_faults(false);
}

void PortSession::try_open() {
  auto opening = open_(loop_, port_, profile_);
  if (!opening) return not_open(opening.error());
  link_ = std::move(*opening);
  if (link_->connected()) return opened();
  for (const auto& feed : feeds_) feed->connecting();
}

void PortSession::not_open(const Refusal& refusal) {
  soon_ = refusal.code == "absent" || refusal.code == "permission";
  for (const auto& feed : feeds_) feed->link("gone", refusal.message, "");
}

asio::awaitable<void> PortSession::connect() {
  const std::shared_ptr<drivers::Link> link = link_;
  const Result<void> connected = co_await link->connect();
  if (stopped_) co_return;
  if (connected) {
    opened();
  } else {
    not_open(connected.error());
    co_await wait_to_try();
  }
}

void PortSession::opened() {
  decoder_ = drivers::make_decoder(profile_, unit_, link_->wire());
  burst_.opened(link_->bytes_waited());
  opened_ns_ = desk_.clock().now().mono_ns;
  in_second_ = 0;
  asked_ = false;
  for (const auto& feed : feeds_) feed->link("open", "", valid_utf8(link_->device()));
  asks_ = !decoder_->ask().empty();
  if (asks_) asio::co_spawn(loop_, poll(shared_from_this(), link_), log_error);
}

void PortSession::tell_full() {
  if (std::exchange(told_full_, true)) return;
  for (const auto& feed : feeds_)
    desk_.tell({{"event", "fault"},
                {"gauge", feed->name()},
                {"why", "not_stored"},
                {"raw", ""},
                {"bytes", 0},
                {"count", 1},
                {"text", "too many frames wait for the disk: the port is read no further"}});
}

/// A port that does not stay open is not tried all the time.
void PortSession::gone(const std::string& why) {
  const Instant now = desk_.clock().now();
  take_events(decoder_->finish(), now);
  link_->close();
  link_.reset();
  for (boost::asio::steady_timer* const timer : {&answer_timer_, &silence_timer_, &pause_timer_, &flood_timer_})
    timer->cancel();
  soon_ = now.mono_ns - opened_ns_ >= kStayed_ns;
  for (const auto& feed : feeds_) {
    feed->stopped();
    feed->link("gone", why, "");
  }
}

void PortSession::take_rest() {
  if (link_ && link_->connected() && desk_.has_room()) take({link_->read_rest(), false, {}});
}

void PortSession::stop() {
  stopped_ = true;
  for (boost::asio::steady_timer* const timer :
       {&timer_, &answer_timer_, &silence_timer_, &pause_timer_, &flood_timer_})
    timer->cancel();
  if (link_ && decoder_) take_events(decoder_->finish(), desk_.clock().now());
  for (const auto& feed : feeds_) {
    feed->stopped();
    feed->release_faults(true);
  }
  if (link_) link_->close();
}

}  // namespace tenth
