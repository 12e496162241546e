#pragma once

#include <string>
#include <vector>

#include "rules/judge.hpp"

namespace tenth {

/// One part that came back from another shop, held against the size that was asked for.
struct Returned {
  std::string feature, to;
  int index = 0;
  std::string label;
  AskedSize asked;
  std::optional<Length> min, max, uncertainty;  ///< of what was measured since it came back; empty: nothing yet
  Verdict verdict = Verdict::incomplete;
};

/// Of every feature that came back and that a size was asked for, each index. It says whether the other shop did what
/// it was asked; whether the part is right is the spec's word, so the engine's verdict does not hang on it.
std::vector<Returned> returned(const Engine& engine, const CountingMap& counts);

}  // namespace tenth
