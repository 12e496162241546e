#pragma once

#include <toml++/toml.h>

#include <initializer_list>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "simulators/amount.hpp"

namespace tenth::simulators {

/// "FILE:LINE:COLUMN: " of a node.
std::string place(const std::string& file, const toml::source_region& source);

/// A text and where it stands.
struct Text {
  std::string value, where;
};

/// Reads the keys of one table. The first thing wrong is kept, told by `finish`; until then the readers give defaults.
class Fields {
 public:
  Fields(const std::string& file, const toml::table& table) : file_(file), table_(table) {}

  std::optional<Text> text(std::string_view key);
  Text required_text(std::string_view key, std::string_view example);
  bool flag(std::string_view key);
  int whole(std::string_view key, int otherwise, int least, int most);
  std::optional<Amount> amount(std::string_view key);
  std::vector<Text> texts(std::string_view key);
  std::vector<const toml::table*> tables(std::string_view key);

  /// The position of the word among `words`; the first where the key is left out.
  std::size_t choice(std::string_view key, std::initializer_list<std::string_view> words);

  void fail(const std::string& where, const std::string& what);

  /// Every key was asked for and every value was right, or the first error.
  Result<void> finish();

 private:
  const toml::node* find(std::string_view key);
  std::string where(const toml::node& node) const { return place(file_, node.source()); }

  const std::string& file_;
  const toml::table& table_;
  std::set<std::string, std::less<>> asked_;
  std::optional<std::string> error_;
};

}  // namespace tenth::simulators
