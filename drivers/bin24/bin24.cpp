#include "drivers/bin24/bin24.hpp"

#include "drivers/hex_digits.hpp"
#include "drivers/number.hpp"
#include "rules/decimal.hpp"

namespace tenth::drivers {
namespace {

constexpr unsigned kMagnitude = 0x0F'FFFF, kMinus = 1U << 20, kUnused = 3U << 21, kInches = 1U << 23;

/// Steps of 0.01 mm, or of 0.0005 in: five of the last place.
std::string text_of(unsigned bits, Unit unit) {
  const unsigned steps = bits & kMagnitude;
  const bool negative = (bits & kMinus) != 0;
  return unit == Unit::in ? decimal(negative, std::to_string(steps * 5), 4)
                          : decimal(negative, std::to_string(steps), 2);
}

Parsed parse(const Profile& profile, std::string_view frame) {
  const auto digits = hex_digits<6>(frame);
  if (!digits) return bad_frame("the frame is not 6 hexadecimal digits");
  unsigned bits = 0;
  for (const unsigned digit : *digits) bits = bits << 4 | digit;
  if ((bits & kUnused) != 0) return bad_frame("bit 21 or 22 is set");
  const Unit unit = (bits & kInches) != 0 ? Unit::in : Unit::mm;
  const std::string text = text_of(bits, unit);
  return measured(profile, text, text, unit, true);
}

}  // namespace

std::unique_ptr<Decoder> make_bin24(const Profile& profile, std::optional<Unit>, Wire) {
  return std::make_unique<FrameDecoder>(profile.frame, profile.trigger.ask,
                                        [profile](std::string_view frame) { return parse(profile, frame); });
}

}  // namespace tenth::drivers
