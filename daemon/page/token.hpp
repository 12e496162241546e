#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "rules/result.hpp"

namespace tenth {

/// What acting on the page needs. Whoever may use the socket may see it (`tenth page`); it stands in no log and no
/// query.
class Token {
 public:
  /// 256 random bits.
  static Token make();
  /// The one line of a file: 32 to 256 letters, digits, `-` and `_`. Refused (4, `token_file`): other text, and a file
  /// that others than its owner may read or write.
  static Result<Token> from_file(const std::filesystem::path& file);

  const std::string& text() const { return text_; }
  /// In a time that tells nothing of how much of it was right.
  bool matches(std::string_view given) const;

 private:
  explicit Token(std::string text) : text_(std::move(text)) {}
  std::string text_;
};

}  // namespace tenth
