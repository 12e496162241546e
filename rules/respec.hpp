#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rules/engine.hpp"
#include "rules/spec.hpp"

namespace tenth {

/// One thing that a later version of a spec asks differently.
struct SpecChange {
  std::string of;    ///< `spec`, `layout`, `facts`, `material`, `feature`, `fit` or `spread`
  std::string name;  ///< of the feature, fit or spread; empty for the others
  std::string key;   ///< as the spec file has it; empty: the whole feature, fit or spread is new or gone
  std::optional<std::string> from, to;  ///< in words; absent where the version says nothing about it

  friend bool operator==(const SpecChange&, const SpecChange&) = default;
};

/// Everything that two versions ask differently, in the order of the later one; what is gone comes last. Lengths are
/// exact and in the unit of the later version (in millimetres where nine places of an inch cannot hold them).
/// The order of features is not compared.
std::vector<SpecChange> difference(const Spec& before, const Spec& after);

/// The places of an engine that have readings (of any state and stage) or an answer, and that `after` lacks or has as
/// another kind of feature.
std::vector<Place> vanishing(const Engine& engine, const Spec& after);

}  // namespace tenth
