#pragma once

#include <span>
#include <string_view>

#include "simulators/act.hpp"
#include "simulators/words.hpp"

namespace tenth::simulators {

/// An act by the word it begins with, its form for people, and how the words after the first are read.
struct Verb {
  std::string_view name, form;
  Act (*read)(Words&);
};

/// Every act but `raw`, whose bytes are no words.
std::span<const Verb> verbs();

}  // namespace tenth::simulators
