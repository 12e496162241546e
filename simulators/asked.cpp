#include "simulators/asked.hpp"

#include "simulators/modbus.hpp"

namespace tenth::simulators {

namespace {

std::vector<Live*> on(const Outlet& outlet, Gauges& gauges) {
  std::vector<Live*> found;
  for (auto& [name, live] : gauges)
    if (live.outlet == &outlet) found.push_back(&live);
  return found;
}

/// Now, or after its delay.
void reply(Live& live, Agenda& agenda, Time now, const std::string& bytes) {
  if (live.muted) return;
  if (live.delay.count() == 0) return (void)live.send(bytes);
  agenda.add(now + live.delay, [&live, bytes](Time) { (void)live.send(bytes); });
}

/// The gauge whose question ends first, with that question and all before it taken away; none: null.
Live* asked_first(std::string& heard, const std::vector<Live*>& lives) {
  Live* first = nullptr;
  std::size_t end = std::string::npos;
  for (auto* live : lives) {
    const auto at = heard.find(live->gauge->ask);
    if (at == std::string::npos || at + live->gauge->ask.size() >= end) continue;
    first = live;
    end = at + live->gauge->ask.size();
  }
  if (first) heard.erase(0, end);
  return first;
}

void answer_lines(Outlet& outlet, const std::vector<Live*>& lives, Agenda& agenda, Time now) {
  constexpr std::size_t kLongest = 256;  // of a question; what is older is none
  while (auto* live = asked_first(outlet.heard, lives)) {
    const auto bytes = live->frame_of(live->size(now), live->display());
    if (bytes) reply(*live, agenda, now, spoilt(*bytes, live->take_spoil().slip));
  }
  if (outlet.heard.size() > kLongest) outlet.heard.erase(0, outlet.heard.size() - kLongest);
}

/// Modbus device with the registers of all its gauges; `addressed` is the gauge that was asked for, else the first.
struct Device {
  Registers input, holding;
  Live* addressed = nullptr;
  bool broken = false;  ///< it shows a value that its registers cannot hold
};

Device device(const Question& question, const std::vector<Live*>& lives, Time now) {
  Device found;
  for (auto* live : lives) {
    const auto& map = live->gauge->map;
    if (map.unit_id != question.unit_id) continue;
    const auto shown = live->display();
    const auto count = count_shown(shown, live->shown(live->size(now)), live->gauge->display.unit);
    const auto words = registers(map, count, shown.decimals);
    if (!found.addressed || asks_for(question, map)) {
      found.addressed = live;
      found.broken = !words;
    }
    auto& table = map.table == Table::input ? found.input : found.holding;
    for (std::size_t i = 0; words && i < words->size(); ++i) table[map.address + static_cast<int>(i)] = (*words)[i];
  }
  return found;
}

void answer_modbus(Outlet& outlet, const std::vector<Live*>& lives, Agenda& agenda, Time now) {
  constexpr int kDeviceFailure = 4;
  const auto take = outlet.address ? take_tcp : take_rtu;
  while (const auto question = take(outlet.heard)) {
    const auto found = device(*question, lives, now);
    if (!found.addressed) continue;
    const auto [gauge, slip, code] = found.addressed->take_spoil();
    auto pdu = found.broken ? exception(*question, kDeviceFailure) : answer(*question, found.input, found.holding);
    if (slip == Slip::exception) pdu = exception(*question, code);
    reply(*found.addressed, agenda, now, spoilt(framed(*question, pdu, slip), slip));
  }
}

}  // namespace

void answer_questions(Outlet& outlet, Gauges& gauges, Agenda& agenda, Time now) {
  const auto lives = on(outlet, gauges);
  const auto speaks = lives.front()->gauge->display.speaks;
  if (speaks == Speaks::query) return answer_lines(outlet, lives, agenda, now);
  if (speaks == Speaks::modbus) return answer_modbus(outlet, lives, agenda, now);
  outlet.heard.clear();
}

}  // namespace tenth::simulators
