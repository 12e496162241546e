#include "simulators/amount.hpp"

#include <algorithm>
#include <cstddef>

namespace tenth::simulators {

namespace {

bool all_digits(std::string_view text) {
  return std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

}  // namespace

Result<Amount> parse_amount(std::string_view text) {
  constexpr std::size_t kPlaces = 6, kWhole = 4;
  std::string_view number = text;
  const bool minus = number.starts_with('-');
  if (minus || number.starts_with('+')) number.remove_prefix(1);
  const auto point = std::min(number.find('.'), number.size());
  const auto whole = number.substr(0, point);
  const auto places = point < number.size() ? number.substr(point + 1) : std::string_view{};
  const bool dangling = point < number.size() && places.empty();
  if (whole.empty() || whole.size() > kWhole || places.size() > kPlaces || dangling || !all_digits(whole) ||
      !all_digits(places)) {
    return tl::unexpected("'" + std::string(text) + "' is no value: write a decimal such as 83.012 or -0.0003");
  }
  std::int64_t millionths = 0;
  for (const char c : whole) millionths = millionths * 10 + (c - '0');
  for (std::size_t i = 0; i < kPlaces; ++i) millionths = millionths * 10 + (i < places.size() ? places[i] - '0' : 0);
  return Amount{minus ? -millionths : millionths};
}

std::int64_t steps(Amount amount, Unit from, Unit to, std::int64_t step_millionths) {
  std::int64_t dividend = amount.millionths, divisor = step_millionths;
  if (from != to) {
    dividend *= to == Unit::mm ? 254 : 10;
    divisor *= to == Unit::mm ? 10 : 254;
  }
  const std::int64_t half = divisor / 2;
  return (dividend < 0 ? dividend - half : dividend + half) / divisor;
}

Result<Unit> parse_unit(std::string_view text) {
  if (text == "mm") return Unit::mm;
  if (text == "in") return Unit::in;
  return tl::unexpected("'" + std::string(text) + "' is no unit: write mm or in");
}

}  // namespace tenth::simulators
