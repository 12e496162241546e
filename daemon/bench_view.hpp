#pragma once

#include "daemon/view.hpp"
#include "rules/engine.hpp"
#include "schema/json/json.hpp"

namespace tenth {

// Parts of what the query `bench` answers (`schema/wire.md`): all that a screen at the bench shows.

/// "bore 3 top thrust", the feature's name as people say it.
std::string place_words(const Place& place, const Spec& spec);

/// The common place and each gauge's own, with what comes next on its round.
Json bench_places(const Bench& bench);

/// The last reading of each gauge, newest first, at most four, held against the limits of its feature.
Json bench_last(const Bench& bench);

/// Every feature of the engine as far as it is measured: each index and each of its places with its state.
Json bench_plan(const Engine& engine, const CountingMap& counts);

/// How the engine is laid out: what the plan is drawn from.
Json bench_layout(const Layout& layout);

}  // namespace tenth
