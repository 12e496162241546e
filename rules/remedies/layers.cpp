#include "rules/remedies/layers.hpp"

#include <algorithm>
#include <numeric>

namespace tenth::choice {

std::size_t Layer::Hash::operator()(std::size_t number) const {
  std::uint64_t hash = 0;
  for (const int each : layer->left(number)) hash = (hash ^ static_cast<std::uint64_t>(each)) * 0x9E3779B97F4A7C15U;
  return hash ^ (hash >> 32U);
}

bool Layer::Same::operator()(std::size_t a, std::size_t b) const {
  return std::ranges::equal(layer->left(a), layer->left(b));
}

Layer::Layer(std::size_t supplies) : supplies_(supplies), known_(16, Hash{this}, Same{this}) {}

void Layer::add(std::span<const int> left, const Way& taken, const Partial& partial) {
  const std::size_t number = partials_.size();
  left_.insert(left_.end(), left.begin(), left.end());
  for (const int take : taken.takes)
    if (take >= 0) --left_[number * supplies_ + static_cast<std::size_t>(take)];
  partials_.push_back(partial);
  const auto [found, fresh] = known_.insert(number);
  if (fresh) return;
  if (partial.cost < partials_[*found].cost) partials_[*found] = partial;
  partials_.pop_back();
  left_.resize(left_.size() - supplies_);
}

void Layer::cut(std::size_t width, std::size_t aim) {
  std::vector<std::size_t> order(partials_.size());
  std::iota(order.begin(), order.end(), 0U);
  std::ranges::nth_element(order, order.begin() + static_cast<std::ptrdiff_t>(width), std::greater(),
                           [&](std::size_t number) { return partials_[number].slack[aim]; });
  std::vector<int> left;
  std::vector<Partial> partials;
  for (const std::size_t number : std::span(order).first(width)) {
    const auto row = this->left(number);
    left.insert(left.end(), row.begin(), row.end());
    partials.push_back(partials_[number]);
  }
  known_.clear();
  left_ = std::move(left);
  partials_ = std::move(partials);
  for (std::size_t number = 0; number < partials_.size(); ++number) known_.insert(number);
}

}  // namespace tenth::choice
