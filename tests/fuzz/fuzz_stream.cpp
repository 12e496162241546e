#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <vector>

#include "rules/stream/packed.hpp"
#include "rules/stream/rocking.hpp"
#include "rules/stream/settled.hpp"

namespace {

using namespace tenth;
using namespace tenth::stream;

constexpr Length kStep = Length::from_pm(100'000);

std::int64_t number_at(const std::uint8_t* data) {
  std::int64_t number = 0;
  std::memcpy(&number, data, sizeof number);
  return number;
}

/// Two bytes lead from one sample to the next, by up to 256 ms and 0.64 mm either way, so that streams that rock are
/// found soon; a zero first byte is followed by any time and any value.
std::vector<Sample> samples_in(const std::uint8_t* data, std::size_t size) {
  std::vector<Sample> samples;
  Sample last;
  for (std::size_t i = 0; i + 1 < size; i += 2) {
    if (data[i] == 0 && i + 17 < size) {
      last = {number_at(data + i + 1), Length::from_pm(number_at(data + i + 9))};
      i += 15;
    } else {
      last.at_ns = narrowed(Wide{last.at_ns} + data[i] * 1'000'000);
      last.value = last.value + Length::from_um(static_cast<std::int8_t>(data[i + 1]) * 5);
    }
    samples.push_back(last);
  }
  return samples;
}

void expect(bool holds) {
  if (!holds) std::abort();
}

void rock(const std::vector<Sample>& samples) {
  const auto whole = turning_point(samples, kStep);
  expect(!whole || (whole->passes >= 3 && whole->spread >= Length()));
  Rocking rocking(kStep);
  const auto check = [&](const std::optional<Rocking::Answer>& answer) {
    expect(!answer || *answer == turning_point(rocking.samples(), kStep));
    expect(rocking.samples().size() <= Rocking::kMost);
  };
  for (const Sample& sample : samples) check(rocking.take(sample));
  check(rocking.stopped());
}

void settle(const std::vector<Sample>& samples) {
  Settled settled(Length::from_um(3), 1000);
  std::optional<Length> last;
  for (const Sample& sample : samples) {
    const auto value = settled.take(sample);
    if (last && (sample.value - *last).magnitude() >= Settled::kLeft) last.reset();
    expect(!value || (!last && *value == sample.value));
    if (value) last = value;
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto samples = samples_in(data, size);
  rock(samples);
  settle(samples);
  expect(unpack(pack(samples)) == samples);
  const std::string text(data, data + size);
  if (const auto unpacked = unpack(text)) expect(pack(*unpacked) == text);
  return 0;
}
