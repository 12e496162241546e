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

  Words player;          ///< plays the WAV file on its standard input; empty: there is none
  Words voice;           ///< speaks the text that follows
  bool cancels = false;  ///< the voice speaks on when it is killed, unless it is told to be quiet
  Words notifier;        ///< shows the text that follows

  /// The program for a notice, with its words.
  Words showing(const Notice& notice) const;
  Words saying(const std::string& text) const;
};

/// Those that the caller named, else the first of the usual ones that is installed. `language` is for the voice.
Helpers find_helpers(const World& world, const std::string& player, const std::string& voice,
                     const std::string& language);

}  // namespace tenth::cli
