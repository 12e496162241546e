#pragma once

#include <string>
#include <string_view>

#include "cli/world.hpp"

namespace tenth::cli {

enum class Tone { plain, good, look, bad, quiet };

/// Colour goes to a terminal only, and neither with NO_COLOR set nor to a terminal that calls itself dumb.
bool wants_colour(const World& world);

/// Colours a text that says the same without colour.
class Ink {
 public:
  explicit Ink(bool colour) : colour_(colour) {}
  std::string operator()(Tone tone, std::string_view text) const;

 private:
  bool colour_;
};

}  // namespace tenth::cli
