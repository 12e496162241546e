#include "rules/couples.hpp"

#include <algorithm>

namespace tenth {
namespace {

/// Which rod of its crankpin, from 0, as the spec has it. Parts that share no mate are all the first.
std::ptrdiff_t rank(const Fit& fit, int inside_index) {
  const Couple& couple = *std::ranges::find(fit.couples, inside_index, &Couple::inside_index);
  return std::ranges::count_if(fit.couples, [&](const Couple& other) {
    return other.outside_index == couple.outside_index && other.inside_index < inside_index;
  });
}

/// Two that would stand in one place: on the same seat where seats are named, else the same rod of a pin.
bool same_seat(const Fit& fit, const Couple& a, const Couple& b) {
  if (!a.outside_level.empty()) return a.outside_level == b.outside_level;
  return rank(fit, a.inside_index) == rank(fit, b.inside_index);
}

}  // namespace

std::vector<Couple> couples_of(const Engine& engine, const Fit& fit) {
  std::vector<Couple> couples = fit.couples;
  if (const auto found = engine.mates.find(fit.name); found != engine.mates.end())
    for (Couple& couple : couples)
      if (const auto mate = found->second.find(couple.inside_index); mate != found->second.end())
        couple.outside_index = mate->second;
  return couples;
}

void mate(Engine& engine, const Fit& fit, int inside_index, int outside_index) {
  const Couple& mover = *std::ranges::find(fit.couples, inside_index, &Couple::inside_index);
  auto& mates = engine.mates[fit.name];
  for (const Couple& other : couples_of(engine, fit))
    if (other.outside_index == outside_index && same_seat(fit, other, mover)) mates[other.inside_index] = 0;
  mates[inside_index] = outside_index;
}

}  // namespace tenth
