#include "cli/speak/sound.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <set>

namespace tenth::cli {
namespace {

constexpr std::array kAll = {Sound::stored, Sound::suspect, Sound::out, Sound::round_done};

/// The strength of one pitch in a stretch of sound (Goertzel, Am. Math. Monthly 65, 1958): 1 for a pure tone at full
/// scale.
double strength(std::span<const std::int16_t> samples, double hertz) {
  const double turn = 2 * std::numbers::pi * hertz / kSamplesPerSecond, step = 2 * std::cos(turn);
  double last = 0, before = 0;
  for (const std::int16_t sample : samples) {
    const double now = sample / 32768.0 + step * last - before;
    before = last;
    last = now;
  }
  const double power = last * last + before * before - step * last * before;
  return 2 * std::sqrt(power) / static_cast<double>(samples.size());
}

struct Heard {
  double begin_ms, end_ms;
  int hertz;
};

/// The loudest of these pitches.
int loudest(std::span<const std::int16_t> note, int from, int to, int step) {
  int best = from;
  double most = 0;
  for (int hertz = from; hertz <= to; hertz += step)
    if (const double here = strength(note, hertz); here > most) most = here, best = hertz;
  return best;
}

int loudest_pitch(std::span<const std::int16_t> note) {
  const int near = loudest(note, 200, 2400, 10);
  return loudest(note, near - 10, near + 10, 1);
}

/// The notes as an ear finds them: sounding stretches between silences of 10 ms, and the strongest pitch of each.
std::vector<Heard> heard(Sound sound) {
  const auto samples = samples_of(sound);
  constexpr std::size_t kSilence = kSamplesPerSecond / 100;
  std::vector<Heard> notes;
  for (std::size_t at = 0; at < samples.size(); ++at) {
    if (std::abs(samples[at]) < 30) continue;
    std::size_t end = at, quiet = 0;
    for (std::size_t i = at; i < samples.size() && quiet < kSilence; ++i) {
      quiet = std::abs(samples[i]) < 30 ? quiet + 1 : 0;
      if (quiet == 0) end = i + 1;
    }
    const auto ms = [](std::size_t sample) { return 1000.0 * static_cast<double>(sample) / kSamplesPerSecond; };
    notes.push_back({ms(at), ms(end), loudest_pitch({samples.data() + at, end - at})});
    at = end;
  }
  return notes;
}

/// Up, down or level from note to note.
std::string contour(Sound sound) {
  const auto notes = heard(sound);
  std::string all;
  for (std::size_t i = 1; i < notes.size(); ++i)
    all += notes[i].hertz > notes[i - 1].hertz ? 'u' : notes[i].hertz < notes[i - 1].hertz ? 'd' : '=';
  return all;
}

TEST(Sounds, AreWhatTheTableSays) {
  for (const Sound sound : kAll) {
    const auto notes = heard(sound);
    const auto wanted = notes_of(sound);
    ASSERT_EQ(notes.size(), wanted.size()) << name(sound);
    double begin = 0;
    for (std::size_t i = 0; i < notes.size(); ++i) {
      EXPECT_NEAR(notes[i].hertz, wanted[i].hertz, 4) << name(sound) << " " << i;
      EXPECT_NEAR(notes[i].begin_ms, begin, 3) << name(sound) << " " << i;
      EXPECT_NEAR(notes[i].end_ms - notes[i].begin_ms, wanted[i].ms, 4) << name(sound) << " " << i;
      begin += wanted[i].ms + wanted[i].pause;
    }
  }
}

/// Who hears no pitch tells them apart by how many notes there are, who counts none by their way up or down.
TEST(Sounds, DifferInRhythmAndInContour) {
  std::set<std::size_t> counts;
  std::set<std::string> contours;
  for (const Sound sound : kAll) {
    counts.insert(heard(sound).size());
    contours.insert(contour(sound));
  }
  EXPECT_EQ(counts.size(), kAll.size());
  EXPECT_EQ(contours, (std::set<std::string>{"", "u", "dd", "uuu"}));
}

TEST(Sounds, AreShortAndTheOrdinaryOneIsTheShortest) {
  for (const Sound sound : kAll) {
    const std::size_t ms = samples_of(sound).size() * 1000 / kSamplesPerSecond;
    EXPECT_LE(ms, 1200U) << name(sound);
    EXPECT_GE(ms, sound == Sound::stored ? 80U : 350U) << name(sound);
  }
  EXPECT_LE(samples_of(Sound::stored).size() * 1000 / kSamplesPerSecond, 120U);
}

TEST(Sounds, CarryAnOvertoneAndNeitherClipNorClick) {
  for (const Sound sound : kAll) {
    const auto samples = samples_of(sound);
    int most = 0, jump = 0;
    for (std::size_t i = 1; i < samples.size(); ++i) {
      most = std::max(most, std::abs(int{samples[i]}));
      jump = std::max(jump, std::abs(samples[i] - samples[i - 1]));
    }
    EXPECT_GT(most, 12'000) << name(sound);
    EXPECT_LT(most, 32'000) << name(sound);
    EXPECT_LT(jump, 12'000) << name(sound);
    EXPECT_LT(std::abs(samples.front()), 50) << name(sound);
    EXPECT_LT(std::abs(samples.back()), 50) << name(sound);
    const Note first = notes_of(sound).front();
    const std::span<const std::int16_t> note(samples.data(),
                                             static_cast<std::size_t>(first.ms * kSamplesPerSecond / 1000));
    EXPECT_GT(strength(note, first.hertz * 2), 0.1 * strength(note, first.hertz)) << name(sound);
  }
}

std::uint32_t number_at(const std::string& bytes, std::size_t at, std::size_t size) {
  std::uint32_t number = 0;
  for (std::size_t byte = 0; byte < size; ++byte)
    number |= static_cast<std::uint32_t>(static_cast<unsigned char>(bytes[at + byte])) << (8 * byte);
  return number;
}

TEST(Sounds, AreWholeWavFiles) {
  for (const Sound sound : kAll) {
    const std::string wav = wav_of(sound);
    const auto samples = samples_of(sound);
    ASSERT_EQ(wav.size(), 44 + samples.size() * 2);
    EXPECT_EQ(wav.substr(0, 4) + wav.substr(8, 8) + wav.substr(36, 4), "RIFFWAVEfmt data");
    EXPECT_EQ(number_at(wav, 4, 4), wav.size() - 8);
    EXPECT_EQ(number_at(wav, 20, 2), 1U);       // PCM
    EXPECT_EQ(number_at(wav, 22, 2), 1U);       // one channel
    EXPECT_EQ(number_at(wav, 24, 4), 22'050U);  // a second
    EXPECT_EQ(number_at(wav, 34, 2), 16U);      // bits
    EXPECT_EQ(number_at(wav, 40, 4), samples.size() * 2);
    EXPECT_EQ(static_cast<std::int16_t>(number_at(wav, 44 + 200, 2)), samples[100]);
  }
}

}  // namespace
}  // namespace tenth::cli
