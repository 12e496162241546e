#include "cli/speak/sound.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "rules/names.hpp"

namespace tenth::cli {
namespace {

constexpr Names<Sound, 4> kNames{{"stored", "suspect", "out", "round_done"}};

constexpr std::array kStored = {Note{880, 110, 0}};
constexpr std::array kSuspect = {Note{523, 150, 70}, Note{784, 260, 0}};
constexpr std::array kOut = {Note{659, 260, 80}, Note{494, 260, 80}, Note{330, 420, 0}};
constexpr std::array kRoundDone = {Note{523, 80, 25}, Note{659, 80, 25}, Note{784, 80, 25}, Note{1047, 240, 0}};

constexpr double kLoud = 0.6 * 32767;
constexpr double kOvertone = 0.25;  ///< an octave above, so that it carries in a shop
constexpr int kFade_ms = 8;

int samples_in(int ms) {
  return ms * kSamplesPerSecond / 1000;
}

/// 0 at both ends of a note, 1 between, and smooth.
double envelope(int at, int length) {
  const double edge = std::min({1.0, double(at) / samples_in(kFade_ms), double(length - at) / samples_in(kFade_ms)});
  return 0.5 - 0.5 * std::cos(edge * std::numbers::pi);
}

void add(std::string& bytes, std::uint32_t number, int size) {
  for (int byte = 0; byte < size; ++byte) bytes.push_back(static_cast<char>(number >> (8 * byte) & 0xFFU));
}

}  // namespace

std::span<const Note> notes_of(Sound sound) {
  switch (sound) {
    case Sound::stored:
      return kStored;
    case Sound::suspect:
      return kSuspect;
    case Sound::out:
      return kOut;
    case Sound::round_done:
      break;
  }
  return kRoundDone;
}

std::string_view name(Sound sound) {
  return kNames.of(sound);
}

std::vector<std::int16_t> samples_of(Sound sound) {
  std::vector<std::int16_t> samples;
  for (const Note& note : notes_of(sound)) {
    const int length = samples_in(note.ms);
    const double step = 2 * std::numbers::pi * note.hertz / kSamplesPerSecond;
    for (int at = 0; at < length; ++at) {
      const double wave = (std::sin(step * at) + kOvertone * std::sin(2 * step * at)) / (1 + kOvertone);
      samples.push_back(static_cast<std::int16_t>(std::lround(kLoud * envelope(at, length) * wave)));
    }
    samples.insert(samples.end(), static_cast<std::size_t>(samples_in(note.pause)), 0);
  }
  return samples;
}

std::string wav_of(Sound sound) {
  const auto samples = samples_of(sound);
  const auto size = static_cast<std::uint32_t>(samples.size() * 2);
  std::string bytes = "RIFF";
  add(bytes, 36 + size, 4);
  bytes += "WAVEfmt ";
  add(bytes, 16, 4);
  add(bytes, 1, 2);  // PCM
  add(bytes, 1, 2);  // channel
  add(bytes, kSamplesPerSecond, 4);
  add(bytes, kSamplesPerSecond * 2, 4);
  add(bytes, 2, 2);
  add(bytes, 16, 2);
  bytes += "data";
  add(bytes, size, 4);
  for (const std::int16_t sample : samples) add(bytes, static_cast<std::uint16_t>(sample), 2);
  return bytes;
}

}  // namespace tenth::cli
