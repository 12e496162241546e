#pragma once

#include <initializer_list>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "rules/nearest.hpp"
#include "rules/spec.hpp"
#include "schema/toml/toml_text.hpp"

namespace tenth::toml_file {

using Names = std::vector<std::string>;

/// A name of a feature, level, axis or label: it can be typed as one word and stand between slashes.
bool is_plain_name(std::string_view name);

/// What to do about an unknown word.
std::string choices(std::string_view word, std::span<const std::string> candidates);

/// The keys of one table of a file, which knows no others than `known`. An absent key gives the default; one with
/// the wrong kind of value is told.
class Keys {
 public:
  Keys(TomlText& text, const toml::table& table, std::string title, std::initializer_list<std::string_view> known);

  TomlText& text() { return text_; }
  const std::string& title() const { return title_; }  ///< "[feature.bore]", for messages
  bool has(std::string_view key) const { return table_.contains(key); }
  const toml::node* find(std::string_view key) const { return table_.get(key); }

  /// The key that gives a limit, for messages: limits, else the one asked, else the other.
  std::string_view limit_key(std::string_view asked) const;

  /// Something is wrong with the value of a key; where the key is absent, with the table.
  void wrong(std::string_view key, const std::string& what, std::string remedy);

  std::string words(std::string_view key);  ///< free text
  std::string required(std::string_view key, const std::string& remedy);
  std::optional<int> whole(std::string_view key, int least, int most);
  bool yes(std::string_view key, bool otherwise);
  std::optional<Length> length(std::string_view key);
  std::optional<Length> length_not_negative(std::string_view key);
  Limits pair(std::string_view key);  ///< [lower, upper]; both, or neither
  Names names(std::string_view key);  ///< plain names that differ
  const toml::table* table(std::string_view key);

  template <class T>
  T choice(std::string_view key, T otherwise, std::initializer_list<std::pair<std::string_view, T>> known) {
    if (!has(key)) return otherwise;
    Names candidates;
    for (const auto& [name, value] : known) {
      if (find(key)->value<std::string_view>() == name) return value;
      candidates.emplace_back(name);
    }
    no_choice(key, candidates);
    return otherwise;
  }

 private:
  void no_choice(std::string_view key, std::span<const std::string> candidates);

  TomlText& text_;
  const toml::table& table_;
  std::string title_;
};

/// Plain names that differ; `key` is what they are for. Anything else is told.
Names read_names(TomlText& text, const toml::node& node, const std::string& key);

/// limits = [lower, upper], or min or max or both.
Limits read_limits(Keys& keys);

/// One named table within another, such as [feature.bore].
struct Group {
  std::string name, title;
  const toml::table* table;
};

/// The named tables within `table`, in the order of the file.
std::vector<Group> read_groups(TomlText& text, const toml::table* table, const std::string& key);

/// What people type as one word must be one.
void check_plain(TomlText& text, const Group& group);

/// The keys of a table in the order of the file.
std::vector<const toml::key*> in_order(const toml::table& table);

}  // namespace tenth::toml_file
