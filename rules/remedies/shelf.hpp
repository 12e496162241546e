#pragma once

#include <map>

#include "rules/remedies/setup.hpp"

namespace tenth {

/// The bearing halves of one feature that may be used: those lying free, and those fitted in the seats in question.
/// Halves that only their names tell apart are one kind.
class Shelf {
 public:
  Shelf(const Setup& setup, const Stock& stock, std::span<const Couple> seats);

  std::size_t kinds() const { return kinds_.size(); }
  const Shell& kind(std::size_t number) const { return *kinds_[number].front(); }
  /// The kind that sits there. Empty: not told, or not in the stock.
  std::optional<std::size_t> fitted(int index, Half side) const;
  const std::string& fitted_id(int index, Half side) const;
  /// How many there are of each kind, those fitted among them unless the fit forbids that they move.
  std::vector<int> supply() const;

  /// This half stays in its seat.
  void keep(const std::string& id);
  /// The id of a half of this kind, which is then gone.
  std::string take(std::size_t kind);

 private:
  const Setup& setup_;
  std::vector<std::vector<const Shell*>> kinds_;
  std::map<std::string, int> left_;  ///< by id
};

}  // namespace tenth
