#pragma once

#include <optional>
#include <string>

#include "rules/result.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth {

// What a name in a command means, or a refusal that offers the nearest right word.

Result<const Engine*> engine_named(const Bench& bench, const std::string& name);
/// The one named, else the one in use.
Result<const Engine*> engine_or_used(const Bench& bench, const std::optional<std::string>& name);
/// A gauge that is there and was not dropped.
Result<const Gauge*> gauge_named(const Bench& bench, const std::string& name);
/// Checks the name where there is one.
Result<std::optional<std::string>> maybe_gauge(const Bench& bench, const std::optional<std::string>& name);

/// A master that is there and was not dropped.
Result<const Master*> master_named(const Bench& bench, const std::string& name);
/// The unit of the spec in use, for bare numbers.
std::optional<Unit> spec_unit(const Bench& bench);

}  // namespace tenth
