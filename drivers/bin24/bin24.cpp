#include "drivers/bin24/bin24.hpp"

#include "drivers/decimal.hpp"
#include "drivers/hex_digits.hpp"

namespace tenth::drivers {
namespace {

constexpr unsigned kMagnitude = 0x0F'FFFF, kMinus = 1U << 20, kUnused = 3U << 21, kInches = 1U << 23;

std::unique_ptr<Decoder> make(std::optional<Unit>) {
  return std::make_unique<FrameDecoder>(Framing{}, parse_bin24);
}

/// Steps of 0.01 mm, or of 0.0005 in: five of the last place.
std::string text_of(unsigned bits, Unit unit) {
  const unsigned steps = bits & kMagnitude;
  const bool negative = (bits & kMinus) != 0;
  return unit == Unit::in ? decimal(negative, std::to_string(steps * 5), 4)
                          : decimal(negative, std::to_string(steps), 2);
}

}  // namespace

Parsed parse_bin24(std::string_view frame) {
  const auto digits = hex_digits<6>(frame);
  if (!digits) return bad_frame("the frame is not 6 hexadecimal digits");
  unsigned bits = 0;
  for (const unsigned digit : *digits) bits = bits << 4 | digit;
  if ((bits & kUnused) != 0) return bad_frame("bit 21 or 22 is set");
  const Unit unit = (bits & kInches) != 0 ? Unit::in : Unit::mm;
  std::string text = text_of(bits, unit);
  const auto value = length_from_decimal(text, unit);
  if (!value) return bad_frame(value.error().message);
  return Measurement{.raw = {}, .text = std::move(text), .value = *value, .unit = unit, .unit_in_frame = true};
}

Format bin24_format() {
  return Format{.name = "bin24",
                .title = "24-bit binary frame",
                .definition = R"(format = "tenth-profile-1"
title = "24-bit binary frame"
speaks = "bin24"
)",
                .unit_in_frame = true,
                .whole_by_length = true,
                .make = make};
}

}  // namespace tenth::drivers
