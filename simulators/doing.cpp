#include "simulators/doing.hpp"

#include <utility>

#include "simulators/stream.hpp"

namespace tenth::simulators {

namespace {

/// Bytes for people: those that are no letters as \xHH.
std::string escaped(std::string_view bytes) {
  constexpr std::string_view kHex = "0123456789ABCDEF";
  std::string text;
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte >= 0x20 && byte < 0x7F && c != '\\') {
      text += c;
    } else {
      text.append("\\x").append(1, kHex[byte >> 4]).append(1, kHex[byte & 0xF]);
    }
  }
  return text;
}

}  // namespace

Result<Done> Doing::send(const std::string& bytes) {
  if (live.muted) return Done{"muted"};
  if (auto sent = live.send(bytes); !sent) return tl::unexpected(sent.error());
  return Done{escaped(bytes)};
}

Result<Done> Doing::operator()(const Press& press) {
  const auto& values = live.gauge->values;
  const bool listed = !press.value;
  if (listed && live.next == values.size()) {
    return tl::unexpected(live.gauge->name + " has no more values: press it with one");
  }
  auto display = press.unit ? switched(live.gauge->display, *press.unit) : live.display();
  display.status = press.status.value_or(display.status);
  const auto bytes = live.frame_of(listed ? values[live.next] : *press.value, display);
  if (!bytes) return tl::unexpected(bytes.error());
  auto sent = send(spoilt(*bytes, press.slip));
  if (sent && listed) ++live.next;
  return sent;
}

Result<Done> Doing::operator()(const Noise& noise) {
  return send(simulators::noise(live.random, static_cast<std::size_t>(noise.count)));
}

Result<Done> Doing::operator()(const Flood& flood) {
  Torrent torrent{.rate = flood.rate, .begun = now, .taken = now};
  torrent.left = static_cast<std::size_t>(flood.rate) * static_cast<std::size_t>(flood.seconds);
  if (flood.frames) {
    auto frame = live.frame_of(live.size(now), live.display());
    if (!frame) return tl::unexpected(frame.error());
    torrent.source = std::move(*frame);
  }
  pour(live, agenda, torrent, now);
  return Done{};
}

Result<Done> Doing::operator()(const Endless& endless) {
  constexpr std::int64_t kRate = 1'000'000;
  const auto count = static_cast<std::size_t>(endless.count);
  pour(live, agenda, {.source = "1", .rate = kRate, .left = count, .begun = now, .taken = now}, now);
  return Done{};
}

Result<Done> Doing::operator()(const Spoil& spoil) {
  live.spoil = spoil;
  return Done{};
}

Result<Done> Doing::operator()(const Mute& mute) {
  live.muted = mute.on;
  return Done{};
}

Result<Done> Doing::operator()(const Delay& delay) {
  live.delay = delay.time;
  return Done{};
}

Result<Done> Doing::operator()(const Switch& to) {
  live.unit = to.unit;
  return Done{};
}

Result<Done> Doing::operator()(const Drift& drift) {
  live.offset = live.offset + drift.by;
  return Done{};
}

Result<Done> Doing::operator()(const Stream& stream) {
  stream.on ? begin_stream(live, agenda, now) : end_stream(live);
  return Done{};
}

Result<Done> Doing::operator()(const Hold& hold) {
  live.motion.reset();
  live.held = hold.value;
  return Done{};
}

Result<Done> Doing::move(const Motion& motion) {
  live.move(motion, now);
  return Done{std::to_string(motion.lasts().count()) + " ms", motion.lasts()};
}

Result<Done> Doing::operator()(const Approach& approach) {
  return move(Motion::approaching(approach, live.size(now)));
}

Result<Done> Doing::operator()(const Rock& rock) {
  const Amount usual{live.gauge->display.unit == Unit::mm ? 500'000 : 20'000};  // 0.5 mm, 0.02 in
  return move(Motion::rocking(rock, rock.amplitude.value_or(usual), live.held));
}

Result<Done> Doing::operator()(const HangUp&) {
  if (!live.outlet->wire) return tl::unexpected(live.gauge->name + " is hung up already");
  live.outlet->wire.reset();
  return Done{};
}

Result<Done> Doing::operator()(const Return&) {
  if (live.outlet->wire) return tl::unexpected(live.gauge->name + " is there already");
  if (auto open = live.outlet->open(); !open) return tl::unexpected(open.error());
  return Done{live.outlet->wire->where()};
}

}  // namespace tenth::simulators
