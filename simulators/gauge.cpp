#include "simulators/gauge.hpp"

namespace tenth::simulators {

namespace {

/// What is wrong with the act for that gauge; empty: nothing.
struct Objection {
  const Gauge& gauge;
  bool modbus = gauge.display.speaks == Speaks::modbus;

  std::string operator()(const Press& press) const {
    if (modbus) return "a modbus gauge has no button: it answers when it is asked";
    const bool line = gauge.display.speaks == Speaks::line;
    return press.status && !line ? "only a line has a status: leave it out" : "";
  }

  std::string operator()(const Stream&) const {
    const bool asked = modbus || gauge.display.speaks == Speaks::query;
    return asked ? "it speaks only when it is asked: a stream wants line, bcd13 or bin24" : "";
  }

  std::string operator()(const Flood& flood) const {
    return modbus && flood.frames ? "a modbus gauge sends no frames by itself: leave 'frames' out" : "";
  }

  std::string operator()(const Delay&) const {
    return modbus || gauge.display.speaks == Speaks::query ? "" : "only what is asked can be late: query or modbus";
  }

  std::string operator()(const Spoil& spoil) const {
    const bool wants_modbus = spoil.slip >= Slip::crc;
    if (wants_modbus && !modbus) return "only a modbus answer can have that";
    if (spoil.slip == Slip::crc && gauge.tcp) return "there is no CRC on TCP: spoil the transaction";
    if (spoil.slip == Slip::transaction && !gauge.tcp) return "there is a transaction on TCP only: spoil the crc";
    return "";
  }

  std::string operator()(const auto&) const { return ""; }
};

}  // namespace

bool answer_alike(const Gauge& one, const Gauge& other) {
  if (one.display.speaks == Speaks::query) return one.ask == other.ask;
  const auto &a = one.map, &b = other.map;
  return one.display.speaks == Speaks::modbus && a.unit_id == b.unit_id && a.table == b.table &&
         a.address < b.address + width(b.type) && b.address < a.address + width(a.type);
}

Result<void> can_do(const Gauge& gauge, const Act& act) {
  const auto objection = std::visit(Objection{gauge}, act);
  if (objection.empty()) return {};
  return tl::unexpected(gauge.name + ": " + objection);
}

}  // namespace tenth::simulators
