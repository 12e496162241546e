#include "simulators/display.hpp"

#include <algorithm>

#include "simulators/encode/digits.hpp"
#include "simulators/encode/encoders.hpp"

namespace tenth::simulators {

namespace {

Result<std::string> body(const Display& display, std::int64_t count) {
  switch (display.speaks) {
    case Speaks::line:
      return encode_line(display, count);
    case Speaks::bcd13:
      return encode_bcd13(display, count);
    case Speaks::bin24:
      return encode_bin24(display, count);
    case Speaks::query:
      return encode_query(display, count);
    case Speaks::modbus:
      break;
  }
  return tl::unexpected(std::string("a modbus gauge has no button: it answers when it is asked"));
}

}  // namespace

std::int64_t count_shown(const Display& display, Amount amount, Unit unit) {
  if (display.speaks != Speaks::bin24) return steps(amount, unit, display.unit, last_decimal(display.decimals));
  return steps(amount, unit, display.unit, display.unit == Unit::mm ? 10'000 : 500);  // 0.01 mm, 0.0005 in
}

Result<std::string> frame(const Display& display, Amount amount, Unit unit) {
  auto sent = body(display, count_shown(display, amount, unit));
  if (sent) *sent += display.end;
  return sent;
}

Display switched(Display display, Unit unit) {
  if (display.unit == unit) return display;
  const int most = display.speaks == Speaks::bcd13 ? 5 : 6;
  display.decimals = std::clamp(display.decimals + (unit == Unit::in ? 1 : -1), 0, most);
  display.unit = unit;
  return display;
}

}  // namespace tenth::simulators
