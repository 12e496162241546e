#pragma once

#include <string>

#include "schema/ledger/bench.hpp"

namespace tenth::page {

/// Every reading of the engine, in order: when, who, with what, as received, and what became of it.
std::string readings_markup(const Engine& engine);

/// The gauges that the engine was measured with, and the settings and checks that bear on its readings.
std::string gauges_markup(const Bench& bench, const Engine& engine);

}  // namespace tenth::page
