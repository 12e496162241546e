#pragma once

#include "rules/remedies/setup.hpp"

namespace tenth {

/// "2.74850 in (69.8119 mm)": the engine's unit first, each a place finer than people read it.
std::string both_units(Length length, Unit unit);
/// "0.0012 in", for reasons.
std::string shown(Length length, const Setup& setup);

/// "1, 2, 5": the labels of the steps, each once.
template <class Step>
std::string labels_of(const std::vector<Step>& steps) {
  std::string text, last;
  for (const Step& step : steps) {
    if (step.label != last) text += (text.empty() ? "" : ", ") + step.label;
    last = step.label;
  }
  return text;
}

/// Which limit a fit still breaks, and by how much: "0.0012 in under its lower limit 0.0020 in".
std::string still_bad(const FitResult& result, const Setup& setup);

std::string words_of_shells(const Remedy& remedy);
std::string words_of_match(const Remedy& remedy, const Setup& setup);
std::string words_of_grinding(const Remedy& remedy, const Setup& setup, const Grind& grind);
std::string words_of_cutting(const Remedy& remedy, const char* verb, Unit unit);

}  // namespace tenth
