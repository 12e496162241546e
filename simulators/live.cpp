#include "simulators/live.hpp"

#include <utility>

#include "simulators/port.hpp"

namespace tenth::simulators {

Result<void> Outlet::open() {
  heard.clear();
  if (!address) {
    auto port = Port::open(link);
    if (!port) return tl::unexpected(port.error());
    wire = std::move(*port);
    return {};
  }
  auto port = TcpPort::open(*address, link);
  if (!port) return tl::unexpected(port.error());
  address = (*port)->address();
  wire = std::move(*port);
  return {};
}

Live::Live(const Gauge& of, Outlet& on, std::uint64_t seed)
    : gauge(&of), outlet(&on), offset(of.offset), unit(of.display.unit), delay(of.delay), held(of.held), random(seed) {}

Amount Live::size(Time now) {
  if (!motion) return held;
  if (now - moved < motion->lasts()) return motion->at(now - moved, random);
  motion.reset();
  return held;
}

void Live::move(const Motion& by, Time now) {
  motion = by;
  moved = now;
  held = by.after();
}

Result<std::string> Live::frame_of(Amount measured, const Display& display) const {
  auto bytes = frame(display, shown(measured), gauge->display.unit);
  if (!bytes) return tl::unexpected(gauge->name + ": " + bytes.error());
  return bytes;
}

Result<void> Live::send(std::string_view bytes) {
  if (!outlet->wire) return tl::unexpected(gauge->name + " is hung up: return it first");
  const auto sent = outlet->wire->send(bytes);
  if (!sent) return tl::unexpected(gauge->name + ": " + sent.error());
  return {};
}

}  // namespace tenth::simulators
