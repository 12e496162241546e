#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/speak/utterance.hpp"
#include "cli/world.hpp"

namespace tenth::cli {

/// The programs that do what is heard and seen: the words to start each with.
struct Helpers {
  using Words = std::vector<std::string>;

  struct Voice {
    Words words;           ///< speaks the text that follows
    bool cancels = false;  ///< speaks on when it is killed, unless it is told to be quiet
  };

  Words player;               ///< plays the WAV file on its standard input; empty: there is none
  std::vector<Voice> voices;  ///< the first speaks; each of the others where those before it fail
  Words notifier;             ///< shows the text that follows

  /// The program for a notice, with its words.
  Words showing(const Notice& notice) const;
};

/// Those that the caller named, else the usual ones that are installed: of the voices all, of the others the first.
/// `language` is for the voices.
Helpers find_helpers(const World& world, const std::string& player, const std::string& voice,
                     const std::string& language);

}  // namespace tenth::cli
