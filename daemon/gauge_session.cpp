#include "daemon/gauge_session.hpp"

#include <spdlog/spdlog.h>

#include <boost/asio/as_tuple.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <chrono>
#include <exception>

#include "drivers/link/port_identity.hpp"
#include "schema/json/escape.hpp"

namespace tenth {
namespace {

namespace asio = boost::asio;
using std::chrono::milliseconds;

/// A port that is back is open at once; one that is there and refuses us is asked every second.
constexpr milliseconds kAbsent(100), kRefused(1000);
constexpr milliseconds kFull(200);

asio::awaitable<void> wait(asio::steady_timer& timer, milliseconds time) {
  timer.expires_after(time);
  co_await timer.async_wait(asio::as_tuple(asio::use_awaitable));
}

}  // namespace

GaugeSession::GaugeSession(asio::any_io_executor loop, Desk& desk, OpenLink open, const Gauge& gauge)
    : loop_(std::move(loop)),
      desk_(desk),
      open_(std::move(open)),
      name_(gauge.name),
      port_(gauge.port),
      unit_(gauge.unit),
      format_(drivers::find_format(gauge.profile)),
      timer_(loop_) {}

void GaugeSession::start() {
  desk_.live(name_) = {};
  try_open();
  asio::co_spawn(loop_, run(shared_from_this()), [name = name_](const std::exception_ptr& error) {
    if (error) spdlog::critical("the session of gauge {} ended by an error of ours", name);
  });
}

asio::awaitable<void> GaugeSession::run(std::shared_ptr<GaugeSession> self) {
  GaugeSession& session = *self;
  while (!session.stopped_) {
    if (!session.link_) {
      co_await wait(session.timer_, session.absent_ ? kAbsent : kRefused);
      session.release_faults(session.valve_.release(session.desk_.clock().now().mono_ns));
      if (!session.stopped_) session.try_open();
      continue;
    }
    if (!session.desk_.has_room()) {
      if (!std::exchange(session.told_full_, true))
        session.desk_.tell({{"event", "fault"}, {"gauge", session.name_}, {"why", "not_stored"}, {"raw", ""}, {"bytes", 0}, {"count", 1},
                            {"text", "too many frames wait for the disk: the port is read no further"}});
      co_await wait(session.timer_, kFull);
      continue;
    }
    session.told_full_ = false;
    const drivers::Chunk chunk = co_await session.link_->read();
    if (session.stopped_) break;
    session.take(chunk);
    if (chunk.gone) session.gone(chunk.why);
  }
}

void GaugeSession::try_open() {
  auto opened = open_(loop_, port_);
  absent_ = !opened && opened.error().code == "absent";
  if (!opened) return tell_state("gone", opened.error().message, "");
  link_ = std::move(*opened);
  decoder_ = format_->make(unit_);
  burst_.opened(link_->bytes_waited());
  tell_state("open", "", valid_utf8(drivers::port_identity(port_)));
}

void GaugeSession::tell_state(const std::string& state, const std::string& given, const std::string& device) {
  const std::string why = printable(valid_utf8(given));  // it may name a foreign program
  LiveGauge& live = desk_.live(name_);
  if (live.state == state && live.why == why) return;
  live.state = state;
  live.why = why;
  if (state == "open")
    spdlog::info("gauge {}: port {} open {}", printable(name_), printable(port_), printable(device));
  else
    spdlog::warn("gauge {}: port {} gone: {}", printable(name_), printable(port_), why);
  desk_.happen("daemon", [name = name_, state, why, device](Draft& draft) { take_link(draft, name, state, why, device); });
}

void GaugeSession::take(const drivers::Chunk& chunk) {
  const Instant arrived = desk_.clock().now();
  if (!chunk.bytes.empty())
    for (drivers::Judged& judged : burst_.take(decoder_->feed(chunk.bytes), arrived.mono_ns, format_->whole_by_length))
      take(std::move(judged), arrived);
  release_faults(valve_.release(arrived.mono_ns));
}

void GaugeSession::take(drivers::Judged judged, const Instant& arrived) {
  if (!burst_frames_.seqs || arrived.mono_ns - burst_frames_.last_ns >= drivers::Burst::kPause_ns)
    burst_frames_.seqs = std::make_shared<std::vector<std::int64_t>>();
  burst_frames_.last_ns = arrived.mono_ns;
  if (auto* const fault = std::get_if<drivers::Fault>(&judged.event)) return take(std::move(*fault), arrived);
  take(std::get<drivers::Measurement>(judged.event), judged.damaged, arrived);
}

void GaugeSession::take(const drivers::Measurement& measurement, bool damaged, const Instant& arrived) {
  Frame frame{name_, measurement, damaged, arrived, std::nullopt, std::exchange(dropped_, 0), std::nullopt};
  if (last_frame_ns_) frame.since_last_ns = arrived.mono_ns - *last_frame_ns_;
  last_frame_ns_ = arrived.mono_ns;
  desk_.live(name_).last_frame_ns = arrived.mono_ns;
  auto seqs = burst_frames_.seqs;
  const std::size_t own = seqs->size();
  seqs->push_back(0);
  desk_.frame(std::move(frame), [seqs, own](std::int64_t seq) { (*seqs)[own] = seq; });
}

void GaugeSession::take(drivers::Fault fault, const Instant& arrived) {
  dropped_ += fault.bytes;
  if (valve_.admit(fault, arrived.mono_ns)) {
    spdlog::warn("gauge {}: {} ({} bytes)", printable(name_), fault.text, fault.bytes);
    desk_.happen("gauge", [told = PortFault{name_, std::move(fault), 1}](Draft& draft) { take_fault(draft, told); });
  }
  if (burst_frames_.seqs && !burst_frames_.seqs->empty())
    desk_.happen("daemon", [seqs = burst_frames_.seqs](Draft& draft) { doubt_damaged(draft, *seqs); });
}

void GaugeSession::release_faults(std::vector<drivers::Held> held) {
  for (const drivers::Held& each : held) {
    drivers::Fault fault{each.why, "held back, more than ten in a minute", "", each.bytes};
    desk_.happen("gauge", [told = PortFault{name_, std::move(fault), each.count}](Draft& draft) { take_fault(draft, told); });
  }
}

void GaugeSession::gone(const std::string& why) {
  const Instant now = desk_.clock().now();
  for (drivers::Event& event : decoder_->finish()) take({std::move(event), false}, now);
  link_->close();
  link_.reset();
  last_frame_ns_.reset();
  absent_ = true;
  tell_state("gone", why, "");
}

void GaugeSession::take_rest() {
  if (link_ && desk_.has_room()) take({link_->read_rest(), false, {}});
}

void GaugeSession::stop() {
  stopped_ = true;
  timer_.cancel();
  if (!link_) return;
  const Instant now = desk_.clock().now();
  for (drivers::Event& event : decoder_->finish()) take({std::move(event), false}, now);
  release_faults(valve_.release_all());
  link_->close();
}

void GaugeSessions::start_all(const Bench& bench) {
  for (const auto& [name, gauge] : bench.gauges)
    if (!gauge.dropped) start(gauge);
}

void GaugeSessions::start(const Gauge& gauge) {
  if (gauge.port == "hand") return;
  auto session = std::make_shared<GaugeSession>(loop_, desk_, open_, gauge);
  sessions_[gauge.name] = session;
  session->start();
}

void GaugeSessions::follow(const Entry& entry, const Bench& bench) {
  const auto& kind = entry.body.at("kind").get_ref<const std::string&>();
  if (kind != "gauge" && kind != "gauge_drop") return;
  const auto name = entry.body.at("gauge").get<std::string>();
  if (kind == "gauge") return start(bench.gauges.at(name));
  const auto found = sessions_.find(name);
  if (found == sessions_.end()) return;
  found->second->stop();
  sessions_.erase(found);
}

void GaugeSessions::stop_all() {
  for (const auto& [name, session] : sessions_) {
    session->take_rest();
    session->stop();
  }
  sessions_.clear();
}

}  // namespace tenth
