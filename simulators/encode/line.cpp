#include "simulators/encode/digits.hpp"
#include "simulators/encode/encoders.hpp"

namespace tenth::simulators {

namespace {

/// Zeros stand between the sign and the digits, blanks before the sign.
std::string widened(const std::string& sign, const std::string& digits, const Display& display) {
  const auto wanted = static_cast<std::size_t>(display.width);
  const auto length = sign.size() + digits.size();
  const std::string lead(length < wanted ? wanted - length : 0, display.lead);
  return display.lead == ' ' ? lead + sign + digits : sign + lead + digits;
}

}  // namespace

Result<std::string> encode_line(const Display& display, std::int64_t count) {
  const std::string plain = fixed(count, display.decimals, display.point);
  if (plain.size() > (display.decimals > 0 ? 5U : 4U) + static_cast<std::size_t>(display.decimals)) {
    return tl::unexpected(too_few_digits("line"));
  }
  const std::string sign = count < 0 ? "-" : display.plus ? "+" : "";
  const auto digits = display.exponent ? scientific(count, display.decimals, display.point) : plain;
  std::string text = display.channel.empty() ? "" : display.channel + display.separator;
  text += widened(sign, digits, display);
  if (display.names_unit) text += display.unit == Unit::mm ? " mm" : " in";
  return text + display.suffix + display.status;
}

}  // namespace tenth::simulators
