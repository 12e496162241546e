#pragma once

#include <string>
#include <tl/expected.hpp>
#include <utility>

namespace tenth {

/// How a command ends: the exit status that `tenth` gives for it.
enum class Exit { done = 0, no = 1, words = 2, unreachable = 3, refused = 4 };

/// An expected failure: what is wrong, where, and what would be right. One clear line for a person.
struct Refusal {
  Exit exit = Exit::refused;
  std::string code;     ///< one word for programs, such as "unknown_engine"
  std::string message;  ///< what is wrong, and where
  std::string remedy;   ///< what to do

  friend bool operator==(const Refusal&, const Refusal&) = default;
};

template <class T>
using Result = tl::expected<T, Refusal>;

/// The call is well formed but refused: exit status 4.
inline tl::unexpected<Refusal> refuse(std::string code, std::string message, std::string remedy) {
  return tl::unexpected(Refusal{Exit::refused, std::move(code), std::move(message), std::move(remedy)});
}

/// The words are wrong whatever the daemon knows: exit status 2.
inline tl::unexpected<Refusal> wrong_words(std::string code, std::string message, std::string remedy) {
  return tl::unexpected(Refusal{Exit::words, std::move(code), std::move(message), std::move(remedy)});
}

}  // namespace tenth

/// `TENTH_TRY(const Length size, parse_length(text, unit));` binds the value, or leaves the function with the refusal.
#define TENTH_TRY(declaration, expression) TENTH_TRY_AS(TENTH_TRY_JOIN(tried_, __LINE__), declaration, expression)
#define TENTH_TRY_AS(temporary, declaration, expression)                 \
  auto temporary = (expression);                                         \
  if (!(temporary)) return tl::unexpected(std::move(temporary).error()); \
  declaration = *std::move(temporary)
#define TENTH_TRY_JOIN(a, b) TENTH_TRY_JOIN_EXPANDED(a, b)
#define TENTH_TRY_JOIN_EXPANDED(a, b) a##b
