#pragma once

#include <chrono>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "rules/result.hpp"

namespace tenth::drivers {

/// Finds a device among what is plugged in. Ports that are gone are looked for again and again: one look round serves
/// all that ask within a moment, as long as it is for what is not there. What is there is looked at anew before it is
/// used, for its name may have gone to another since.
template <class Thing>
class LookAround {
 public:
  using Time = std::chrono::steady_clock::time_point;
  using Look = std::function<std::vector<Thing>()>;
  using Find = std::function<Result<std::string>(const std::vector<Thing>&)>;
  static constexpr std::chrono::milliseconds kMoment{250};

  explicit LookAround(Look look) : look_(std::move(look)) {}

  Result<std::string> find(const Find& find, Time now = std::chrono::steady_clock::now()) {
    if (looked_ && now - *looked_ < kMoment)
      if (auto device = find(seen_); !device) return device;
    seen_ = look_();
    looked_ = now;
    return find(seen_);
  }

 private:
  Look look_;
  std::vector<Thing> seen_;
  std::optional<Time> looked_;
};

}  // namespace tenth::drivers
