#pragma once

#include "rules/remedies/stock.hpp"
#include "schema/toml/keys.hpp"

/// The parts of a stock file, each read and checked by itself.
namespace tenth::stock_file {

using namespace toml_file;

/// One [[shell]], [[part]], [[grind]] or [[hone]] of the file.
struct Item {
  std::string title;  ///< "[[shell]]", for messages
  const toml::table* table;
};

/// The items of one kind, in the order of the file.
std::vector<Item> read_items(Keys& keys, std::string_view key);

Shell read_shell(TomlText& text, const Spec& spec, const Item& item);
SparePart read_part(TomlText& text, const Spec& spec, const Item& item);
Grind read_grind(TomlText& text, const Spec& spec, const Item& item);
Hone read_hone(TomlText& text, const Spec& spec, const Item& item);

/// The name of a feature: one that the engine lacks is none of its business, but a check has no size.
std::string read_feature_name(Keys& keys, const Spec& spec);

/// A length above zero.
std::optional<Length> length_above_zero(Keys& keys, std::string_view key);

/// How many lie there.
int read_count(Keys& keys);

}  // namespace tenth::stock_file
