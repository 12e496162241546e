#pragma once

#include <optional>

#include "rules/judge.hpp"

namespace tenth {

/// How far it is to a target: `clearance` is the target less what was measured, `size` the mean that this part would
/// have to come to, to bring that about alone.
struct ToGo {
  Length clearance, size;
};

/// Of the first fit with a target that uses this place and can be figured: of rods that share a crankpin, the one whose
/// seat this is.
std::optional<ToGo> to_go(const Engine& engine, const CountingMap& counts, const Place& place);

}  // namespace tenth
