#include "simulators/player.hpp"

#include <utility>

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

std::string spoilt(std::string bytes, Slip slip) {
  const auto middle = bytes.size() / 2;
  if (slip == Slip::half) bytes.resize(middle);
  if (slip == Slip::doubled) bytes.insert(middle, 1, bytes[middle]);
  if (slip == Slip::noisy) bytes.insert(0, "\xFF\x80\x13");
  return bytes;
}

}  // namespace

/// One act on the gauge that it names.
struct Player::Doing {
  Live& live;

  Result<std::string> send(const std::string& bytes) {
    if (!live.port) return tl::unexpected(live.gauge->name + " is hung up: return it first");
    if (auto sent = live.port->send(bytes); !sent) return tl::unexpected(sent.error());
    return escaped(bytes);
  }

  Result<std::string> operator()(const Press& press) {
    const auto& gauge = *live.gauge;
    const bool listed = !press.value;
    if (listed && live.next == gauge.values.size()) {
      return tl::unexpected(gauge.name + " has no more values: press it with one");
    }
    const Amount value = press.value.value_or(listed ? gauge.values[live.next] : Amount{});
    const Amount shown = value - gauge.zero.value_or(Amount{}) + live.offset;
    const auto unit = gauge.display.unit;
    const auto bytes = frame(switched(gauge.display, press.unit.value_or(unit)), shown, unit);
    if (!bytes) return tl::unexpected(gauge.name + ": " + bytes.error());
    auto sent = send(spoilt(*bytes, press.slip));
    if (sent && listed) ++live.next;
    return sent;
  }

  Result<std::string> operator()(const Raw& raw) { return send(raw.bytes); }

  Result<std::string> operator()(const Drift& drift) {
    live.offset = live.offset + drift.by;
    return "";
  }

  Result<std::string> operator()(const HangUp&) {
    if (!live.port) return tl::unexpected(live.gauge->name + " is hung up already");
    live.port.reset();
    return "";
  }

  Result<std::string> operator()(const Return&) {
    if (live.port) return tl::unexpected(live.gauge->name + " is there already");
    auto port = Port::open(live.link);
    if (!port) return tl::unexpected(port.error());
    live.port = std::move(*port);
    return live.port->device();
  }

  Result<std::string> operator()(const Wait&) { return ""; }
};

Result<Player> Player::open(const Scenario& scenario, const std::filesystem::path& folder) {
  Player player;
  for (const auto& gauge : scenario.gauges) {
    auto port = Port::open(folder / gauge.path);
    if (!port) return tl::unexpected(gauge.name + ": " + port.error());
    player.gauges_[gauge.name] = Live{&gauge, folder / gauge.path, std::move(*port), gauge.offset, 0};
  }
  return player;
}

Result<std::string> Player::perform(const Act& act) {
  const auto live = gauges_.find(gauge_of(act));
  if (live == gauges_.end()) return tl::unexpected("no gauge '" + gauge_of(act) + "'");
  return std::visit(Doing{live->second}, act);
}

void Player::forget_dead_readers() {
  for (auto& [name, live] : gauges_) {
    if (live.port) live.port->forget_dead_reader();
  }
}

}  // namespace tenth::simulators
