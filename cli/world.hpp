#pragma once

#include <functional>
#include <iosfwd>
#include <string>

namespace tenth::cli {

/// What the program sees of the outside: its streams, whether a person sits at them, and the environment.
struct World {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  bool in_is_terminal = false, out_is_terminal = false, err_is_terminal = false;
  std::function<std::string(const std::string&)> variable;  ///< of the environment; empty where not set
};

}  // namespace tenth::cli
