#pragma once

#include <cstdint>

#include "rules/length.hpp"

namespace tenth::stream {

/// One value of a live gauge, after the profile's scale and sign: smaller is a smaller size.
struct Sample {
  std::int64_t at_ns = 0;  ///< arrival, steady clock
  Length value;

  friend bool operator==(const Sample&, const Sample&) = default;
};

}  // namespace tenth::stream
