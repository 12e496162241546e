#pragma once

#include "rules/remedies/offer.hpp"

namespace tenth {

/// Gathers remedies, ranks them and gives them their ids.
class Collector {
 public:
  void add(Remedy remedy);
  /// Two remedies one after the other, where together they are better than nothing done. The second was sought where
  /// the first leaves off, and is better than that.
  void add_both(const Setup& setup, const Offer& first, const Offer& second);
  Obstacles obstacles;

  /// Something that this is about (one of the two is named) can be brought in by a remedy undone as easily as that.
  bool has_enough(const std::string& fit, const std::string& feature, Undo undo) const;
  /// A grinding that is enough takes this journal new.
  bool grinds(const std::string& feature, int index) const;
  bool has_any(const std::string& fit) const;

  RemedyList ranked() &&;

 private:
  struct Entry {
    Remedy remedy;
    std::vector<std::size_t> parts;    ///< of a combined one: which entries
    std::optional<std::size_t> after;  ///< it is of use only after this entry
  };
  std::size_t find_or_add(const Remedy& remedy);
  /// Enough before not enough; then by what undoing takes; within a fit then more in, and nearer to the target.
  std::vector<std::size_t> order() const;

  std::vector<Entry> entries_;
};

}  // namespace tenth
