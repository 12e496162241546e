#include "cli/render/ink.hpp"

namespace tenth::cli {
namespace {

std::string_view code(Tone tone) {
  switch (tone) {
    case Tone::good:
      return "\033[32m";
    case Tone::look:
      return "\033[33m";
    case Tone::bad:
      return "\033[1;31m";
    case Tone::quiet:
      return "\033[2m";
    case Tone::plain:
      break;
  }
  return "";
}

}  // namespace

bool wants_colour(const World& world) {
  return world.out_is_terminal && world.variable("NO_COLOR").empty() && world.variable("TERM") != "dumb";
}

std::string Ink::operator()(Tone tone, std::string_view text) const {
  const auto start = code(tone);
  if (!colour_ || start.empty()) return std::string(text);
  return std::string(start).append(text).append("\033[0m");
}

}  // namespace tenth::cli
