#pragma once

#include <functional>
#include <map>
#include <span>
#include <string>
#include <string_view>

#include "rules/spoken.hpp"

namespace tenth {

/// How what happens is said in one language (`schema/speech.md`).
struct Speech {
  using Words = std::map<std::string, std::string, std::less<>>;

  std::string language;  ///< "en": as programs that speak name it
  NumberWords numbers;
  Words names;    ///< what is said for a word of a spec or of the wire
  Words doubts;   ///< what speaks against a reading, by the doubt's name: all of them
  Words phrases;  ///< by the phrase's name: all of them
};

/// What a phrase may speak of: names in braces, such as "{place}: {size}".
struct PhraseForm {
  std::string_view name;
  std::string_view blanks;  ///< the names, with a blank between
};
std::span<const PhraseForm> phrase_forms();

/// A phrase with its blanks filled in.
std::string fill(std::string_view phrase, const Speech::Words& blanks);

/// A name as it is said: what the language has for it, else the name itself, with blanks for underscores.
std::string spoken_name(std::string_view name, const Speech& speech);

/// A language that comes with Tenth, as the text of its file.
struct ShippedSpeech {
  std::string_view language, text;
};
std::span<const ShippedSpeech> shipped_speech();

}  // namespace tenth
