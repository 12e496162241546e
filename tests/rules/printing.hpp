#pragma once

#include <ostream>

#include "rules/judge.hpp"

namespace tenth {

/// How GoogleTest shows values of ours where an expectation fails.
inline void PrintTo(Length length, std::ostream* out) {
  *out << exact_mm(length) << " mm";
}
inline void PrintTo(Verdict verdict, std::ostream* out) {
  *out << name(verdict);
}
inline void PrintTo(Doubt doubt, std::ostream* out) {
  *out << name(doubt);
}

}  // namespace tenth
