#pragma once

#include <optional>

#include "rules/judge.hpp"

namespace tenth {

/// How far it is to a target: `clearance` is the target less what was measured, `size` what a part would have to grow
/// by (negative: shrink by) to bring that about alone.
struct ToGo {
  Length clearance, size;
};

/// Of the first fit with a target that can be figured from the index of this place.
std::optional<ToGo> to_go(const Engine& engine, const CountingMap& counts, const Place& place);

}  // namespace tenth
