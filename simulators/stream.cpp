#include "simulators/stream.hpp"

#include <algorithm>
#include <utility>

namespace tenth::simulators {

namespace {

using namespace std::chrono_literals;

void send_frame(Live& live, Time now) {
  const auto bytes = live.frame_of(live.size(now), live.display());
  if (bytes && !live.muted) (void)live.send(spoilt(*bytes, live.take_spoil().slip));
}

void stream_from(Live& live, Agenda& agenda, Time when) {
  agenda.add(when, [&live, &agenda, when, turn = live.stream](Time now) {
    if (live.stream != turn) return;
    send_frame(live, now);
    const auto period = std::chrono::nanoseconds(1s) / live.gauge->stream_hz;
    stream_from(live, agenda, (when + period > now ? when : now) + period);
  });
}

std::string bytes_of(const Torrent& torrent, std::size_t count, Random& random) {
  if (torrent.source.empty()) return noise(random, count);
  std::string bytes;
  for (std::size_t i = 0; i < count; ++i) bytes += torrent.source[(torrent.sent + i) % torrent.source.size()];
  return bytes;
}

/// One step: what has become due, in pieces that the wire takes.
void step(Live& live, Torrent& torrent, Time now) {
  constexpr std::size_t kPiece = 16'384;
  const auto time = std::chrono::duration_cast<std::chrono::microseconds>(now - torrent.begun).count();
  const auto due = static_cast<std::size_t>(torrent.rate * time / 1'000'000);
  const auto wanted = std::min({due > torrent.sent ? due - torrent.sent : 0, torrent.left, kPiece});
  if (wanted == 0) torrent.taken = now;
  if (wanted == 0 || !live.outlet->wire || live.muted) return;
  const auto taken = live.outlet->wire->offer(bytes_of(torrent, wanted, live.random)).value_or(0);
  torrent.sent += taken;
  torrent.left -= taken;
  if (taken > 0) torrent.taken = now;
}

}  // namespace

void begin_stream(Live& live, Agenda& agenda, Time now) {
  ++live.stream;
  stream_from(live, agenda, now + std::chrono::nanoseconds(1s) / live.gauge->stream_hz);
}

void end_stream(Live& live) {
  ++live.stream;
}

void pour(Live& live, Agenda& agenda, Torrent torrent, Time now) {
  step(live, torrent, now);
  if (torrent.left == 0 || now - torrent.taken > 1s) return;
  agenda.add(now + 1ms,
             [&live, &agenda, torrent = std::move(torrent)](Time then) { pour(live, agenda, torrent, then); });
}

std::string noise(Random& random, std::size_t count) {
  std::string bytes(count, '\0');
  for (char& byte : bytes) byte = static_cast<char>(random() & 0xFF);
  return bytes;
}

}  // namespace tenth::simulators
