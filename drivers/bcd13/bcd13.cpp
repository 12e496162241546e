#include "drivers/bcd13/bcd13.hpp"

#include <algorithm>

#include "drivers/decimal.hpp"
#include "drivers/hex_digits.hpp"

namespace tenth::drivers {
namespace {

constexpr unsigned kMostPlaces = 5;

std::unique_ptr<Decoder> make(std::optional<Unit>) {
  return std::make_unique<FrameDecoder>(Framing{}, parse_bcd13);
}

/// Why the digits are no frame; empty where they are one.
std::string wrong_with(const std::array<unsigned, 13>& digits) {
  const auto number = std::span(digits).subspan(5, 6);
  if (std::any_of(digits.begin(), digits.begin() + 4, [](unsigned digit) { return digit != 0xF; })) {
    return "the frame does not start with FFFF";
  }
  if (digits[4] != 0 && digits[4] != 8) return "the sign digit is neither 0 nor 8";
  if (std::any_of(number.begin(), number.end(), [](unsigned digit) { return digit > 9; })) {
    return "a digit of the number is above 9";
  }
  if (digits[11] > kMostPlaces) return "more than 5 decimals";
  if (digits[12] > 1) return "the unit digit is neither 0 nor 1";
  return "";
}

}  // namespace

Parsed parse_bcd13(std::string_view frame) {
  const auto digits = hex_digits<13>(frame);
  if (!digits) return bad_frame("the frame is not 13 hexadecimal digits");
  if (auto wrong = wrong_with(*digits); !wrong.empty()) return bad_frame(std::move(wrong));
  const Unit unit = (*digits)[12] == 1 ? Unit::in : Unit::mm;
  const bool negative = (*digits)[4] == 8;
  std::string text = decimal(negative, std::string(frame.substr(5, 6)), (*digits)[11]);
  const auto value = length_from_decimal(text, unit);
  if (!value) return bad_frame(value.error().message);
  return Measurement{.raw = {}, .text = std::move(text), .value = *value, .unit = unit, .unit_in_frame = true};
}

Format bcd13_format() {
  return Format{.name = "bcd13",
                .title = "13-digit BCD frame",
                .definition = R"(format = "tenth-profile-1"
title = "13-digit BCD frame"
speaks = "bcd13"
)",
                .unit_in_frame = true,
                .whole_by_length = true,
                .make = make};
}

}  // namespace tenth::drivers
