#pragma once

#include <cstdint>
#include <unordered_set>

#include "rules/remedies/prices.hpp"

namespace tenth::choice {

/// A choice for the first rows: what it cost, and how far the excesses of each aim may still add up.
struct Partial {
  Cost cost = {};
  std::array<std::int64_t, 3> slack = {};
  std::size_t parent = 0, candidate = 0;  ///< in the layer before; in the row
};

/// All partial choices of one length that may still become the best. Of those that leave the same supplies only the
/// cheapest is kept: whatever completes one completes the other.
class Layer {
 public:
  explicit Layer(std::size_t supplies);
  Layer(const Layer&) = delete;
  Layer& operator=(const Layer&) = delete;

  std::size_t size() const { return partials_.size(); }
  const Partial& at(std::size_t number) const { return partials_[number]; }
  const std::vector<Partial>& partials() const { return partials_; }
  std::span<const int> left(std::size_t number) const {
    return std::span(left_).subspan(number * supplies_, supplies_);
  }

  void add(std::span<const int> left, const Way& taken, const Partial& partial);
  /// Keeps the `width` most promising for an aim.
  void cut(std::size_t width, std::size_t aim);

 private:
  struct Hash {
    const Layer* layer;
    std::size_t operator()(std::size_t number) const;
  };
  struct Same {
    const Layer* layer;
    bool operator()(std::size_t a, std::size_t b) const;
  };

  std::size_t supplies_;
  std::vector<int> left_;  ///< one row of supplies for each partial choice
  std::vector<Partial> partials_;
  std::unordered_set<std::size_t, Hash, Same> known_;
};

}  // namespace tenth::choice
