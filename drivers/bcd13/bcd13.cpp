#include "drivers/bcd13/bcd13.hpp"

#include <algorithm>

#include "drivers/hex_digits.hpp"
#include "drivers/number.hpp"
#include "rules/decimal.hpp"

namespace tenth::drivers {
namespace {

constexpr unsigned kMostPlaces = 5;

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

Parsed parse(const Profile& profile, std::string_view frame) {
  const auto digits = hex_digits<13>(frame);
  if (!digits) return bad_frame("the frame is not 13 hexadecimal digits");
  if (auto wrong = wrong_with(*digits); !wrong.empty()) return bad_frame(std::move(wrong));
  const Unit unit = (*digits)[12] == 1 ? Unit::in : Unit::mm;
  const bool negative = (*digits)[4] == 8;
  const std::string text = decimal(negative, std::string(frame.substr(5, 6)), (*digits)[11]);
  return measured(profile, text, text, unit, true);
}

}  // namespace

std::unique_ptr<Decoder> make_bcd13(const Profile& profile, std::optional<Unit>, Wire) {
  return std::make_unique<FrameDecoder>(profile.frame, profile.trigger.ask,
                                        [profile](std::string_view frame) { return parse(profile, frame); });
}

}  // namespace tenth::drivers
