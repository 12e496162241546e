#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "simulators/amount.hpp"

namespace tenth::simulators {

/// The words of an act, read from the first on. The first thing wrong is kept; from then on readers give defaults.
class Words {
 public:
  /// `right` is the whole form of the act, told where a word is missing or too many.
  Words(std::span<const std::string_view> words, std::string right) : words_(words), right_(std::move(right)) {}

  std::string text();
  Amount amount();
  int whole(int least, int most);
  Unit unit();

  /// The position among `choices` of the next word, which must be one of them.
  std::size_t choice(std::initializer_list<std::string_view> choices);

  /// True, and the word is taken, where it comes next.
  bool take(std::string_view word);

  /// True where a word is left that is none of these.
  bool has_other_than(std::initializer_list<std::string_view> choices) const;
  bool empty() const { return words_.empty(); }

  void fail(const std::string& what);

  /// Nothing is left and nothing was wrong, or the first error.
  Result<void> finish();

 private:
  std::string_view next();

  std::span<const std::string_view> words_;
  std::string right_;
  std::optional<std::string> error_;
};

/// The words of a line, parted by blanks.
std::vector<std::string_view> split(std::string_view line);

/// "'what' is not understood: write right".
std::string not_understood(std::string_view what, std::string_view right);

/// Escaped text as bytes: \xHH \r \n \t \\ and everything else as it is.
Result<std::string> unescape(std::string_view text);

}  // namespace tenth::simulators
