#include "rules/remedies/shelf.hpp"

#include <algorithm>
#include <tuple>

namespace tenth {
namespace {

bool alike(const Shell& a, const Shell& b) {
  const auto looks = [](const Shell& s) { return std::tie(s.half, s.places, s.series, s.undersize, s.wall, s.coated); };
  return looks(a) == looks(b);
}

}  // namespace

Shelf::Shelf(const Setup& setup, const Stock& stock, std::span<const Couple> seats) : setup_(setup) {
  for (const Shell& shell : stock.shells) {
    if (shell.feature != setup.fit->inside) continue;
    left_[shell.id] = shell.count;
    const auto same = std::ranges::find_if(kinds_, [&](const auto& kind) { return alike(*kind.front(), shell); });
    if (same == kinds_.end())
      kinds_.push_back({&shell});
    else
      same->push_back(&shell);
  }
  if (!setup.fit->swap) return;
  for (const Couple& seat : seats)
    for (const Half side : {Half::upper, Half::lower})
      if (fitted(seat.inside_index, side)) ++left_[fitted_id(seat.inside_index, side)];
}

const std::string& Shelf::fitted_id(int index, Half side) const {
  static const std::string kNone;
  const auto found = setup_.engine->installed.find({setup_.fit->inside, index});
  if (found == setup_.engine->installed.end()) return kNone;
  return side == Half::upper ? found->second.upper : found->second.lower;
}

std::optional<std::size_t> Shelf::fitted(int index, Half side) const {
  const std::string& id = fitted_id(index, side);
  for (std::size_t kind = 0; kind < kinds_.size(); ++kind)
    if (std::ranges::any_of(kinds_[kind], [&](const Shell* shell) { return shell->id == id; })) return kind;
  return std::nullopt;
}

std::vector<int> Shelf::supply() const {
  std::vector<int> result;
  for (const auto& kind : kinds_) {
    int count = 0;
    for (const Shell* shell : kind) count += left_.at(shell->id);
    result.push_back(count);
  }
  return result;
}

void Shelf::keep(const std::string& id) {
  if (setup_.fit->swap) --left_.at(id);
}

std::string Shelf::take(std::size_t kind) {
  const auto has = [&](const Shell* shell) { return left_.at(shell->id) > 0; };
  const Shell* const shell = *std::ranges::find_if(kinds_[kind], has);
  --left_.at(shell->id);
  return shell->id;
}

}  // namespace tenth
