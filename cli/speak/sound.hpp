#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace tenth::cli {

/// What is heard without words. Told apart blind by rhythm and by the way the pitch goes, not by pitch alone:
/// stored is one short note, suspect two that rise as a question does, out three long ones that fall, and the end of a
/// round four quick ones upwards.
enum class Sound { stored, suspect, out, round_done };

struct Note {
  int hertz = 0;
  int ms = 0;     ///< how long it sounds
  int pause = 0;  ///< silence after it, in ms
};

std::span<const Note> notes_of(Sound sound);
std::string_view name(Sound sound);

inline constexpr int kSamplesPerSecond = 22'050;

/// One channel of 16 bit, fading in and out at each note so that nothing clicks.
std::vector<std::int16_t> samples_of(Sound sound);

/// A whole WAV file.
std::string wav_of(Sound sound);

}  // namespace tenth::cli
