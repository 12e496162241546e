#pragma once

#include <CLI/CLI.hpp>

#include "rules/result.hpp"

namespace tenth::cli {

/// Why the words were not understood, with the nearest right word: exit status 2.
Refusal explain(const CLI::App& program, const CLI::ParseError& error);

}  // namespace tenth::cli
