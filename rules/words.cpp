#include "rules/words.hpp"

#include <array>
#include <string_view>

namespace tenth {
namespace {

constexpr std::int64_t kPerTenth = 100, kPerThou = 1000, kMostThou = 100;  // in millionths of an inch

/// "two tenths", "1.3 thou": `millionths` of `per` each. Whole ones up to nine are said in words.
std::string counted(std::int64_t millionths, std::int64_t per, const std::string& one, const std::string& many) {
  constexpr std::array<std::string_view, 10> kWords = {"no",   "one", "two",   "three", "four",
                                                       "five", "six", "seven", "eight", "nine"};
  const std::int64_t whole = millionths / per;
  std::int64_t rest = millionths % per;
  if (rest == 0 && whole < 10)
    return std::string(kWords.at(static_cast<std::size_t>(whole))) + " " + (whole == 1 ? one : many);
  std::string text = std::to_string(whole);
  if (rest != 0) text += '.';
  for (std::int64_t place = per / 10; rest != 0; place /= 10) {
    text += static_cast<char>('0' + rest / place);
    rest %= place;
  }
  return text + " " + many;
}

}  // namespace

std::string decimals(Length length, Unit unit) {
  std::string text = fixed(length, unit, usual_places(unit) + 2);
  for (int spare = 0; spare < 2 && text.back() == '0'; ++spare) text.pop_back();
  return text;
}

std::string said(Length distance, Unit unit) {
  const Length apart = distance.magnitude();
  if (decimals(apart, unit) == decimals(Length(), unit)) return exact_mm(apart) + " mm";
  const std::int64_t millionths = divide_rounded(apart.pm(), kInch.pm() / 1'000'000);
  if (unit == Unit::mm || millionths >= kMostThou * kPerThou)
    return decimals(apart, unit) + " " + std::string(name(unit));
  if (millionths == kPerTenth / 2) return "half a tenth";
  return millionths < kPerThou ? counted(millionths, kPerTenth, "tenth", "tenths")
                               : counted(millionths, kPerThou, "thou", "thou");
}

std::string against(Length size, const Limits& limits, Unit unit) {
  if (!limits.any()) return "";
  const auto past = [&](Length limit, const std::string& which) {
    if (size == limit) return "on the " + which + " limit";
    return said(size - limit, unit) + (size > limit ? " over the " : " under the ") + which + " limit";
  };
  if (!limits.upper) return past(*limits.lower, "lower");
  if (!limits.lower) return past(*limits.upper, "upper");
  const Length above = size - *limits.lower, below = *limits.upper - size;
  if (above == below && above > Length()) return said(above, unit) + " inside both limits";
  return above < below ? past(*limits.lower, "lower") : past(*limits.upper, "upper");
}

std::string_view plainly(Doubt doubt) {
  switch (doubt) {
    case Doubt::no_place:
      return "no place was chosen";
    case Doubt::wrong_kind:
      return "its gauge does not measure this kind of feature";
    case Doubt::no_setting:
      return "its gauge was not set on a master";
    case Doubt::setting_old:
      return "its gauge was set too long ago or was unplugged since";
    case Doubt::unit:
      return "the frame says another unit than the gauge was added with";
    case Doubt::range:
      return "the size is far outside what is expected here";
    case Doubt::tenfold:
      return "the decimal point may have slipped";
    case Doubt::inch_mm:
      return "inch and millimetre may be mixed up";
    case Doubt::turn:
      return "the thimble may be whole turns off";
    case Doubt::repeat:
      return "it differs too much from the reading that counted here";
    case Doubt::too_soon:
      return "it came too soon after the reading before";
    case Doubt::damaged:
      return "bytes around it were damaged";
    case Doubt::away:
      return "the part had been sent to another shop";
    case Doubt::overdue:
      return "its gauge was past the due day of its calibration";
    case Doubt::drift:
      return "its gauge had drifted when it was next checked";
    case Doubt::setting_void:
      return "the setting it was made with is void";
    case Doubt::gauge:
      return "its gauge was found to be wrong";
  }
  return "";
}

}  // namespace tenth
