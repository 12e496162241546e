#pragma once

#include <string>

#include "cli/render/ink.hpp"

namespace tenth::cli {

/// A sign and a word that say the same as their colour.
struct Mark {
  std::string sign, word;
  Tone tone = Tone::plain;
};

/// Columns that a mark takes: the sign, a blank, "incomplete", a blank.
inline constexpr std::size_t kMarkColumns = 13;

Mark verdict_mark(const std::string& verdict);
Mark state_mark(const std::string& state);
Mark alert_mark(const std::string& state, const std::string& severity);

/// The mark in its colour, padded to `columns`.
std::string inked(const Ink& ink, const Mark& mark, std::size_t columns = kMarkColumns);

}  // namespace tenth::cli
