#pragma once

#include <iosfwd>
#include <span>
#include <string_view>

namespace tenth::simulators {

/// The whole program: `words` are those after its name. SIGTERM and SIGINT end it in order. Gives the exit status.
int run(std::span<const std::string_view> words, std::ostream& out, std::ostream& err);

}  // namespace tenth::simulators
