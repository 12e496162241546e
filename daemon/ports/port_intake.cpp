#include <algorithm>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <chrono>

#include "daemon/ports/port_session.hpp"
#include "daemon/ports/wire_text.hpp"

namespace tenth {

namespace {

namespace asio = boost::asio;
using std::chrono::milliseconds;
using std::chrono::nanoseconds;

constexpr std::int64_t kSecond_ns = 1'000'000'000;
constexpr std::size_t kMostInBurst = 1000;  // what goes on for longer is a stream
constexpr auto kTuple = asio::as_tuple(asio::use_awaitable);

}  // namespace

void PortSession::take(const drivers::Chunk& chunk) {
  if (chunk.bytes.empty()) return;
  const Instant arrived = desk_.clock().now();
  const auto recorded = [](const auto& feed) { return feed->is_recorded(); };
  if (std::any_of(feeds_.begin(), feeds_.end(), recorded))
    for (const auto& feed : feeds_) feed->tell_wire("host", wire_text(chunk.bytes), arrived);
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
  if (!profile_.frame.start.empty()) watch_pause();
  for (const auto& feed : feeds_) feed->release_faults(false);
}

void PortSession::take_events(std::vector<drivers::Event> events, const Instant& arrived) {
  const auto is_fault = [](const drivers::Event& event) { return std::holds_alternative<drivers::Fault>(event); };
  const bool beside_fault = std::any_of(events.begin(), events.end(), is_fault);
  for (drivers::Judged& judged : burst_.take(std::move(events), arrived.mono_ns, drivers::whole_by_length(profile_))) {
    // A stream is one long burst: of it only what came together with a fault is damaged. It is not shown then.
    if (is_live(profile_)) judged.damaged = beside_fault || judged.unseen;
    take(std::move(judged), arrived);
  }
}

void PortSession::take(drivers::Judged judged, const Instant& arrived) {
  if (!burst_seqs_ || arrived.mono_ns - burst_ns_ >= drivers::Burst::kPause_ns || burst_seqs_->size() >= kMostInBurst)
    burst_seqs_ = std::make_shared<std::vector<std::int64_t>>();
  burst_ns_ = arrived.mono_ns;
  auto* const fault = std::get_if<drivers::Fault>(&judged.event);
  const bool answers = asked_ && !(fault != nullptr && fault->stale);
  if (answers) {
    asked_ = false;
    answer_timer_.cancel();
  }
  if (fault != nullptr) return take_fault(std::move(*fault), arrived, true);
  auto& measurement = std::get<drivers::Measurement>(judged.event);
  GaugeFeed* const feed = feed_of(measurement.channel);
  const bool unasked = asks_ && !answers, unsure = is_live(profile_) && judged.damaged;
  if (feed != nullptr && !unasked && !unsure) return feed->take(measurement, judged.damaged, arrived, burst_seqs_);
  const std::size_t bytes = measurement.raw.size();
  drivers::Fault lost{unasked || unsure ? drivers::FaultReason::noise : drivers::FaultReason::bad_frame, "",
                      std::move(measurement.raw), bytes};
  lost.text = unasked  ? "it came without a question"
              : unsure ? "it came together with damaged bytes"
                       : "no gauge has the channel " +
                             (measurement.channel.empty() ? "of a frame without one" : measurement.channel);
  take_fault(std::move(lost), arrived, false);
}

/// A fault is told on the port's first gauge, but none of them shows for sure what it showed; what came in the same
/// burst from any of them is damaged.
void PortSession::take_fault(drivers::Fault fault, const Instant& arrived, bool in_burst) {
  if (feeds_.empty()) return;
  for (const auto& feed : feeds_) desk_.live(feed->name()).faulty = true;
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

/// Bytes that no start came behind are told when their burst is over.
void PortSession::watch_pause() {
  pause_timer_.expires_after(nanoseconds(drivers::Burst::kPause_ns));
  pause_timer_.async_wait([self = weak_from_this()](const boost::system::error_code& error) {
    const auto session = self.lock();
    if (error || !session || session->stopped_ || !session->link_) return;
    session->take_events(session->decoder_->pause(), session->desk_.clock().now());
  });
}

asio::awaitable<void> PortSession::wait_for_the_flood(std::int64_t since_ns) {
  mood("flooding", "more than 1 MiB in a second");
  const std::int64_t left_ns = since_ns + kSecond_ns - desk_.clock().now().mono_ns;
  timer_.expires_after(nanoseconds(std::max<std::int64_t>(left_ns, 1)));
  co_await timer_.async_wait(kTuple);
  in_second_ = 0;
  flood_timer_.expires_after(nanoseconds(kSecond_ns));
  flood_timer_.async_wait([self = weak_from_this()](const boost::system::error_code& error) {
    const auto session = self.lock();
    if (!error && session && session->in_second_ < kFlood) session->mood("open", "");
  });
}

void PortSession::mood(const std::string& state, const std::string& why) {
  for (const auto& feed : feeds_) feed->mood(state, why);
}

}  // namespace tenth
