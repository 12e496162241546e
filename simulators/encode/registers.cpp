#include "simulators/encode/registers.hpp"

#include <bit>
#include <limits>
#include <utility>

#include "simulators/encode/digits.hpp"

namespace tenth::simulators {

namespace {

template <class T>
bool holds(std::int64_t count) {
  return count >= std::numeric_limits<T>::min() && count <= std::numeric_limits<T>::max();
}

bool fits(RegisterType type, std::int64_t count) {
  if (type == RegisterType::int16) return holds<std::int16_t>(count);
  if (type == RegisterType::uint16) return holds<std::uint16_t>(count);
  if (type == RegisterType::int32) return holds<std::int32_t>(count);
  return type == RegisterType::float32 || holds<std::uint32_t>(count);
}

std::uint32_t float_bits(std::int64_t count, int decimals) {
  const auto millionths = static_cast<double>(count * last_decimal(decimals));
  return std::bit_cast<std::uint32_t>(static_cast<float>(millionths / 1e6));
}

std::uint16_t swapped(std::uint16_t word) {
  return static_cast<std::uint16_t>(word << 8 | word >> 8);
}

}  // namespace

int width(RegisterType type) {
  return type == RegisterType::int16 || type == RegisterType::uint16 ? 1 : 2;
}

Result<std::vector<std::uint16_t>> registers(const RegisterMap& map, std::int64_t count, int decimals) {
  if (!fits(map.type, count)) return tl::unexpected(std::string("the value is too large for its registers"));
  const auto bits = map.type == RegisterType::float32 ? float_bits(count, decimals) : static_cast<std::uint32_t>(count);
  auto high = static_cast<std::uint16_t>(bits >> 16), low = static_cast<std::uint16_t>(bits & 0xFFFF);
  if (map.order == ByteOrder::badc || map.order == ByteOrder::dcba) high = swapped(high), low = swapped(low);
  if (width(map.type) == 1) return std::vector{low};
  if (map.order == ByteOrder::cdab || map.order == ByteOrder::dcba) std::swap(high, low);
  return std::vector{high, low};
}

}  // namespace tenth::simulators
