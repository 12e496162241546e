#pragma once

#include <string>
#include <vector>

#include "cli/world.hpp"

namespace tenth::cli {

/// The whole program: the words after its name in, the exit status out.
int run(std::vector<std::string> words, World& world);

}  // namespace tenth::cli
