#pragma once

#include <optional>
#include <string>

#include "cli/speak/sound.hpp"
#include "schema/json/json.hpp"

namespace tenth::cli {

/// What outranks what, where both cannot be said.
enum class Rank { word, stored, suspect, stop };

/// How much is said.
enum class Level { tones, brief, full };

/// What a desktop notice shows.
struct Notice {
  bool urgent = false;
  std::string text;
};

/// What is heard (and shown) of one moment: all that happened at once.
struct Utterance {
  Rank rank = Rank::word;
  std::optional<Sound> sound;
  std::string text;  ///< empty: nothing is said
  std::optional<Notice> notice;

  bool silent() const { return !sound && text.empty() && !notice; }
};

/// `rank, sound, text, notice {urgent, text}`; null where there is none.
Json utterance_json(const Utterance& utterance);

}  // namespace tenth::cli
