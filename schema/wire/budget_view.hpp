#pragma once

#include "rules/budget.hpp"
#include "schema/json/json.hpp"

namespace tenth {

/// What `check --budget` shows: each term with its value and where it comes from, and what would decide a doubtful fit.
Json budget_json(const Engine& engine, const Fit& fit, const Couple& couple);

}  // namespace tenth
