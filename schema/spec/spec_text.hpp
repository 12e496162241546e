#pragma once

#include <toml++/toml.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/length.hpp"
#include "rules/result.hpp"

namespace tenth::spec_file {

/// The text of a spec file while it is read. Keeps the first thing found wrong; the readers go on with defaults after
/// one, and `parse_spec` gives nothing back but the first.
class SpecText {
 public:
  SpecText(std::string_view text, std::string file);

  void wrong(const toml::source_position& where, const std::string& what, std::string remedy);
  void wrong(const toml::node& where, const std::string& what, std::string remedy) {
    wrong(where.source().begin, what, std::move(remedy));
  }
  const std::optional<Refusal>& first_wrong() const { return first_wrong_; }

  /// The unit of bare numbers, once it is known.
  std::optional<Unit> unit;

  /// A length: text with a unit of its own, or a number in the spec's unit. `key` is what it is for.
  std::optional<Length> length(const toml::node& node, std::string_view key);

  /// A number as it is written, so that no double touches it; `_` between digits is left out.
  std::string literal(const toml::node& number) const;

  /// For messages: in the spec's unit.
  std::string shown(Length length) const;

 private:
  std::string_view text_;
  std::string file_;
  std::vector<std::size_t> characters_;  ///< where each character begins, in bytes (TOML counts columns in characters)
  std::vector<std::size_t> lines_;       ///< the first character of each line
  std::optional<Refusal> first_wrong_;
};

}  // namespace tenth::spec_file
