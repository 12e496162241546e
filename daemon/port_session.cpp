#include "daemon/port_session.hpp"

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
using std::chrono::nanoseconds;

/// A port that is back is open at once; one that is there and refuses us is asked every second.
constexpr milliseconds kAbsent(100), kRefused(1000);
constexpr milliseconds kFull(200);
constexpr std::int64_t kSecond_ns = 1'000'000'000;
constexpr auto kTuple = asio::as_tuple(asio::use_awaitable);

void log_error(const std::exception_ptr& error) {
  if (error) spdlog::critical("the session of a port ended by an error of ours");
}

/// Bytes as a recording writes them: `\!HH` was damaged on the wire.
std::string recorded(const std::vector<drivers::Received>& bytes) {
  constexpr std::string_view kHex = "0123456789ABCDEF";
  std::string text;
  for (const drivers::Received each : bytes) {
    const bool plain = each.byte >= 0x20 && each.byte <= 0x7E && each.byte != '\\' && !each.damaged;
    text += plain ? std::string(1, static_cast<char>(each.byte))
                  : std::string(each.damaged ? "\\!" : "\\x") + kHex[each.byte >> 4U] + kHex[each.byte & 0xFU];
  }
  return text;
}

}  // namespace

PortSession::PortSession(asio::any_io_executor loop, Desk& desk, OpenLink open, std::string port, Profile profile, std::optional<Unit> unit)
    : loop_(std::move(loop)),
      desk_(desk),
      open_(std::move(open)),
      port_(std::move(port)),
      profile_(std::move(profile)),
      unit_(unit),
      timer_(loop_),
      answer_timer_(loop_),
      silence_timer_(loop_) {}

void PortSession::start() {
  try_open();
  asio::co_spawn(loop_, run(shared_from_this()), log_error);
}

void PortSession::add(const Gauge& gauge) {
  feeds_.push_back(std::make_unique<GaugeFeed>(loop_, desk_, gauge, profile_));
  if (link_ && link_->connected()) feeds_.back()->link("open", "", valid_utf8(link_->device()));
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
      session.timer_.expires_after(session.absent_ ? kAbsent : kRefused);
      co_await session.timer_.async_wait(kTuple);
      for (const auto& feed : session.feeds_) feed->release_faults(false);
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

void PortSession::try_open() {
  auto opening = open_(loop_, port_, profile_);
  if (!opening) return not_open(opening.error());
  link_ = std::move(*opening);
  if (link_->connected()) opened();
}

void PortSession::not_open(const Refusal& refusal) {
  link_.reset();
  absent_ = refusal.code == "absent";
  for (const auto& feed : feeds_) feed->link("gone", refusal.message, "");
}

asio::awaitable<void> PortSession::connect() {
  const std::shared_ptr<drivers::Link> link = link_;
  const Result<void> connected = co_await link->connect();
  if (stopped_) co_return;
  if (connected)
    opened();
  else
    not_open(connected.error());
}

void PortSession::opened() {
  decoder_ = drivers::make_decoder(profile_, unit_, link_->wire());
  burst_.opened(link_->bytes_waited());
  in_second_ = 0;
  asked_ = false;
  for (const auto& feed : feeds_) feed->link("open", "", valid_utf8(link_->device()));
  asks_ = !decoder_->ask().empty();
  if (asks_) asio::co_spawn(loop_, poll(shared_from_this(), link_), log_error);
}

/// Asks, waits for the answer as long as it may take, and asks again when it is time. Ends with the link it asks on.
asio::awaitable<void> PortSession::poll(std::shared_ptr<PortSession> self, std::shared_ptr<drivers::Link> link) {
  PortSession& session = *self;
  const Trigger& trigger = session.profile_.trigger;
  while (!session.stopped_ && session.link_ == link) {
    const auto began = std::chrono::steady_clock::now();
    if (session.desk_.has_room() && session.ask(*link)) {
      session.answer_timer_.expires_after(milliseconds(trigger.within_ms));
      co_await session.answer_timer_.async_wait(kTuple);
      if (session.stopped_ || session.link_ != link) break;
      if (session.asked_) session.no_answer();
    }
    asio::steady_timer pause(session.loop_, began + milliseconds(trigger.every_ms));
    co_await pause.async_wait(kTuple);
  }
}

bool PortSession::ask(drivers::Link& link) {
  const std::string question = decoder_->ask();
  const Instant now = desk_.clock().now();
  if (!link.write(question)) return false;
  asked_ = true;
  for (const auto& feed : feeds_) {
    std::vector<drivers::Received> bytes;
    for (const char c : question) bytes.push_back({static_cast<std::uint8_t>(c), false});
    feed->tell_wire("gauge", recorded(bytes), now);
  }
  return true;
}

void PortSession::no_answer() {
  asked_ = false;
  const Instant now = desk_.clock().now();
  std::vector<drivers::Event> events = decoder_->silence();
  if (events.empty()) {
    const std::string within = std::to_string(profile_.trigger.within_ms) + " ms";
    events.emplace_back(drivers::Fault{drivers::FaultReason::silent, "no answer within " + within, "", 0});
    mood("silent", "no answer within " + within);
  }
  for (drivers::Event& event : events) take_fault(std::get<drivers::Fault>(std::move(event)), now, false);
}

void PortSession::take(const drivers::Chunk& chunk) {
  if (chunk.bytes.empty()) return;
  const Instant arrived = desk_.clock().now();
  for (const auto& feed : feeds_) feed->tell_wire("host", recorded(chunk.bytes), arrived);
  const std::int64_t silence_ns = profile_.frame.silence_ms * 1'000'000;
  if (silence_ns > 0 && arrived.mono_ns - last_chunk_ns_ >= silence_ns) take_events(decoder_->silence(), arrived);
  last_chunk_ns_ = arrived.mono_ns;
  if (arrived.mono_ns - second_ns_ >= kSecond_ns) {
    second_ns_ = arrived.mono_ns;
    in_second_ = 0;
  }
  in_second_ += chunk.bytes.size();
  take_events(decoder_->feed(chunk.bytes), arrived);
  if (silence_ns > 0) watch_silence();
  for (const auto& feed : feeds_) feed->release_faults(false);
}

void PortSession::take_events(std::vector<drivers::Event> events, const Instant& arrived) {
  for (drivers::Judged& judged : burst_.take(std::move(events), arrived.mono_ns, drivers::whole_by_length(profile_)))
    take(std::move(judged), arrived);
}

void PortSession::take(drivers::Judged judged, const Instant& arrived) {
  if (!burst_seqs_ || arrived.mono_ns - burst_ns_ >= drivers::Burst::kPause_ns)
    burst_seqs_ = std::make_shared<std::vector<std::int64_t>>();
  burst_ns_ = arrived.mono_ns;
  const bool answers = std::exchange(asked_, false);
  if (answers) answer_timer_.cancel();
  if (auto* const fault = std::get_if<drivers::Fault>(&judged.event)) {
    asked_ = answers && fault->stale;
    return take_fault(std::move(*fault), arrived, true);
  }
  auto& measurement = std::get<drivers::Measurement>(judged.event);
  GaugeFeed* const feed = feed_of(measurement.channel);
  const bool unasked = asks_ && !answers;
  if (feed != nullptr && !unasked) return feed->take(measurement, judged.damaged, arrived, burst_seqs_);
  const std::size_t bytes = measurement.raw.size();
  drivers::Fault fault{unasked ? drivers::FaultReason::noise : drivers::FaultReason::bad_frame, "", std::move(measurement.raw), bytes};
  fault.text = unasked ? "it came without a question" : "no gauge has the channel " + (measurement.channel.empty() ? "of a frame without one" : measurement.channel);
  take_fault(std::move(fault), arrived, false);
}

/// A fault is told on the port's first gauge; what came in the same burst from any of them is damaged.
void PortSession::take_fault(drivers::Fault fault, const Instant& arrived, bool in_burst) {
  if (feeds_.empty()) return;
  feeds_.front()->take(std::move(fault), arrived);
  if (in_burst && burst_seqs_ && !burst_seqs_->empty())
    desk_.happen("daemon", [seqs = burst_seqs_](Draft& draft) { doubt_damaged(draft, *seqs); });
}

GaugeFeed* PortSession::feed_of(const std::string& channel) {
  for (const auto& feed : feeds_)
    if (feed->channel() == channel) return feed.get();
  return nullptr;
}

/// An unfinished frame is dropped when the line has been quiet for as long as the profile says.
void PortSession::watch_silence() {
  silence_timer_.expires_after(milliseconds(profile_.frame.silence_ms));
  silence_timer_.async_wait([self = weak_from_this()](const boost::system::error_code& error) {
    const auto session = self.lock();
    if (error || !session || session->stopped_ || !session->link_) return;
    session->take_events(session->decoder_->silence(), session->desk_.clock().now());
  });
}

asio::awaitable<void> PortSession::wait_for_the_flood(std::int64_t since_ns) {
  mood("flooding", "more than 1 MiB in a second");
  const std::int64_t left_ns = since_ns + kSecond_ns - desk_.clock().now().mono_ns;
  timer_.expires_after(nanoseconds(std::max<std::int64_t>(left_ns, 1)));
  co_await timer_.async_wait(kTuple);
  in_second_ = 0;
  silence_timer_.expires_after(nanoseconds(kSecond_ns));
  silence_timer_.async_wait([self = weak_from_this()](const boost::system::error_code& error) {
    const auto session = self.lock();
    if (!error && session && session->in_second_ < kFlood) session->mood("open", "");
  });
}

void PortSession::mood(const std::string& state, const std::string& why) {
  for (const auto& feed : feeds_) feed->mood(state, why);
}

void PortSession::tell_full() {
  if (std::exchange(told_full_, true)) return;
  for (const auto& feed : feeds_)
    desk_.tell({{"event", "fault"}, {"gauge", feed->name()}, {"why", "not_stored"}, {"raw", ""}, {"bytes", 0}, {"count", 1},
                {"text", "too many frames wait for the disk: the port is read no further"}});
}

void PortSession::gone(const std::string& why) {
  take_events(decoder_->finish(), desk_.clock().now());
  link_->close();
  link_.reset();
  answer_timer_.cancel();
  silence_timer_.cancel();
  absent_ = true;
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
  timer_.cancel();
  answer_timer_.cancel();
  silence_timer_.cancel();
  if (!link_) return;
  if (decoder_) take_events(decoder_->finish(), desk_.clock().now());
  for (const auto& feed : feeds_) {
    feed->stopped();
    feed->release_faults(true);
  }
  link_->close();
}

}  // namespace tenth
