#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "simulators/amount.hpp"

namespace tenth::simulators {

/// What goes wrong with a frame on its way: only its first half arrives, one byte arrives twice, noise comes before it.
enum class Slip { none, half, doubled, noisy };

/// The data button. Without a value the gauge shows the next of its list; with a unit it was switched to that.
struct Press {
  std::string gauge;
  std::optional<Amount> value;
  std::optional<Unit> unit;
  Slip slip = Slip::none;
};

struct Raw {
  std::string gauge, bytes;
};

/// The zero moves: from now on everything shown is more by this.
struct Drift {
  std::string gauge;
  Amount by;
};

struct HangUp {
  std::string gauge;
};

struct Return {
  std::string gauge;
};

/// A pause; without a time until the control says `go`.
struct Wait {
  std::optional<std::chrono::milliseconds> time;
};

using Act = std::variant<Press, Raw, Drift, HangUp, Return, Wait>;

/// One act in words, as a scenario's `play` and the control write it (`simulators/README.md`).
Result<Act> parse_act(std::string_view words);

/// The gauge that an act is about; empty for a pause.
std::string gauge_of(const Act& act);

}  // namespace tenth::simulators
