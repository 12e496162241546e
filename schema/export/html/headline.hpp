#pragma once

#include <string>

#include "rules/judge.hpp"

namespace tenth::page {

/// The top of the page: the engine, what it is, its facts, and the whole verdict with all that keeps it from being in.
std::string headline(const Engine& engine, const Report& report, const std::string& made_at);

}  // namespace tenth::page
