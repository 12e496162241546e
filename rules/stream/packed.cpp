#include "rules/stream/packed.hpp"

#include <charconv>
#include <numeric>
#include <optional>

#include "rules/nearest.hpp"

namespace tenth::stream {
namespace {

using Numbers = std::vector<std::int64_t>;

constexpr std::size_t kHead = 4;  // numbers before the first step

/// What leads from `a` to `b`. Signed arithmetic must not come round; unsigned may.
std::int64_t leading(std::int64_t a, std::int64_t b) {
  return static_cast<std::int64_t>(static_cast<std::uint64_t>(b) - static_cast<std::uint64_t>(a));
}

/// Where `times` × `unit` leads from `a`.
std::int64_t led(std::int64_t a, std::int64_t times, std::int64_t unit) {
  return static_cast<std::int64_t>(static_cast<std::uint64_t>(a) +
                                   static_cast<std::uint64_t>(times) * static_cast<std::uint64_t>(unit));
}

/// The largest unit, of 63 bits, that divides every second number from `first` on.
std::int64_t unit_of(const Numbers& numbers, std::size_t first) {
  std::uint64_t unit = 0;
  for (std::size_t i = first; i < numbers.size(); i += 2) {
    const auto size = static_cast<std::uint64_t>(numbers[i]);
    unit = std::gcd(unit, numbers[i] < 0 ? 0 - size : size);
  }
  if (unit == 0) return 1;
  return static_cast<std::int64_t>(unit > INT64_MAX ? unit / 2 : unit);
}

/// Whole numbers with one character between them; which one, and how they are written, packing them again will tell.
std::optional<Numbers> parse_numbers(std::string_view text) {
  Numbers numbers;
  const char* at = text.data();
  const char* const end = at + text.size();
  for (;;) {
    const auto [rest, error] = std::from_chars(at, end, numbers.emplace_back());
    if (error != std::errc()) return std::nullopt;
    if (rest == end) return numbers;
    at = rest + 1;
  }
}

std::vector<Sample> follow(const Numbers& numbers) {
  std::vector<Sample> samples = {{numbers[0], Length::from_pm(numbers[1])}};
  for (std::size_t i = kHead; i < numbers.size(); i += 2) {
    const Sample& last = samples.back();
    samples.push_back(
        {led(last.at_ns, numbers[i], numbers[2]), Length::from_pm(led(last.value.pm(), numbers[i + 1], numbers[3]))});
  }
  return samples;
}

}  // namespace

std::string pack(std::span<const Sample> samples) {
  if (samples.empty()) return "";
  Numbers numbers = {samples[0].at_ns, samples[0].value.pm(), 0, 0};
  for (std::size_t i = 1; i < samples.size(); ++i) {
    numbers.push_back(leading(samples[i - 1].at_ns, samples[i].at_ns));
    numbers.push_back(leading(samples[i - 1].value.pm(), samples[i].value.pm()));
  }
  numbers[2] = unit_of(numbers, kHead);
  numbers[3] = unit_of(numbers, kHead + 1);
  std::string text;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    const std::int64_t unit = i < kHead ? 1 : numbers[2 + i % 2];
    if (i > 0) text += ' ';
    text += std::to_string(numbers[i] / unit);
  }
  return text;
}

Result<std::vector<Sample>> unpack(std::string_view text) {
  if (text.empty()) return std::vector<Sample>();
  const auto numbers = parse_numbers(text);
  if (numbers && numbers->size() >= kHead && numbers->size() % 2 == 0) {
    auto samples = follow(*numbers);
    if (pack(samples) == text) return samples;
  }
  return wrong_words("stream", quoted(text) + " is no stream that was packed", "look for what changed it");
}

}  // namespace tenth::stream
