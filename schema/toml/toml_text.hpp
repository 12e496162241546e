#pragma once

#include <toml++/toml.h>

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "rules/length.hpp"
#include "rules/result.hpp"

namespace tenth::toml_file {

/// The text of a file of ours in TOML while it is read. Keeps the first thing found wrong; the readers go on with
/// defaults after one, and `read_toml` gives nothing back but the first.
class TomlText {
 public:
  /// `what` the file is, "spec" or "stock": the code of its refusals.
  TomlText(std::string_view text, std::string file, std::string what);

  void wrong(const toml::source_position& where, const std::string& what, std::string remedy);
  void wrong(const toml::node& where, const std::string& what, std::string remedy) {
    wrong(where.source().begin, what, std::move(remedy));
  }
  const std::optional<Refusal>& first_wrong() const { return first_wrong_; }

  /// The unit of bare numbers, once it is known.
  std::optional<Unit> unit;

  /// A length: text with a unit of its own, or a number in the file's unit. `key` is what it is for.
  std::optional<Length> length(const toml::node& node, std::string_view key);

  /// A number as it is written, so that no double touches it; `_` between digits is left out.
  std::string literal(const toml::node& number) const;

  /// For messages: in the file's unit.
  std::string shown(Length length) const;

 private:
  std::string_view text_;
  std::string file_, what_;
  std::vector<std::size_t> characters_;  ///< where each character begins, in bytes (TOML counts columns in characters)
  std::vector<std::size_t> lines_;       ///< the first character of each line
  std::optional<Refusal> first_wrong_;
};

inline constexpr std::size_t kMostBytes = std::size_t{1024} * 1024;

/// What `read` makes of a whole file. Refused (4, code `what`) as "FILE:LINE:COLUMN: what is wrong" with what would be
/// right: no TOML, larger than 1 MiB, or the first thing that `read` said is wrong. Nothing is half-loaded.
template <class Read>
auto read_toml(std::string_view bytes, const std::string& file, const std::string& what, Read read)
    -> Result<decltype(read(std::declval<TomlText&>(), std::declval<const toml::table&>()))> {
  constexpr std::string_view kMark = "\xEF\xBB\xBF";  // of UTF-8, which some editors write first
  if (bytes.starts_with(kMark)) bytes.remove_prefix(kMark.size());
  TomlText text(bytes, file, what);
  if (bytes.size() > kMostBytes) {
    text.wrong({1, 1}, "the " + what + " is larger than 1 MiB", "write a shorter one");
    return tl::unexpected(*text.first_wrong());
  }
  try {
    auto made = read(text, toml::parse(bytes));
    if (!text.first_wrong()) return made;
  } catch (const toml::parse_error& error) {
    text.wrong(error.source().begin, std::string(error.description()),
               "see schema/" + what + ".md for how a " + what + " is written");
  }
  return tl::unexpected(*text.first_wrong());
}

}  // namespace tenth::toml_file
