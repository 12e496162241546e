#pragma once

#include <array>
#include <string>

#include "rules/length.hpp"

namespace tenth {

/// The number words of one language, and how its trade says lengths. Comes from a file of speech (`schema/speech.md`).
struct NumberWords {
  std::array<std::string, 100> small;   ///< "zero" to "ninety-nine"
  std::array<std::string, 9> hundreds;  ///< "one hundred" to "nine hundred"
  std::string join;                     ///< between hundreds and the rest: a blank, or nothing
  std::string point, minus;
  bool inch_by_thou = false;            ///< "four three ten and two tenths"; else "four point three one zero two"
  std::string oh, hundred, even, also;  ///< of inches by thou: "four oh five", "four three hundred", "four even", "and"
  std::string thou, tenth, tenths;      ///< "one tenth", "two tenths"
  std::string micron, microns, mm, in;  ///< units of distances
};

/// A whole number: words up to 999, beyond that digit by digit.
std::string spoken_count(std::int64_t number, const NumberWords& words);

/// A size as it is shown (`decimals`), in words: 4.3102 in "four three ten and two tenths", 0.0175 in "seventeen thou
/// and five tenths", 83.012 mm "eighty-three point zero one two". Different sizes are different words.
std::string spoken_size(Length size, Unit unit, const NumberWords& words);

/// A distance, without a sign: in inches thou and tenths, "three tenths"; in millimetres microns below 0.1 mm, "five
/// microns", else "zero point one two millimetres". Rounded to a tenth of a tenth, or of a micron.
std::string spoken_distance(Length distance, Unit unit, const NumberWords& words);

}  // namespace tenth
