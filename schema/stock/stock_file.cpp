#include "schema/stock/stock_file.hpp"

#include <set>

#include "schema/stock/parts.hpp"

namespace tenth {

namespace stock_file {

namespace {

constexpr std::string_view kFormat = "tenth-stock-1";
constexpr int kMostCount = 10'000;

void read_head(Keys& keys, Stock& stock) {
  if (keys.required("format", "write format = \"tenth-stock-1\" at the top") != kFormat && keys.has("format"))
    keys.wrong("format", "format is not " + quoted(kFormat), "write format = \"tenth-stock-1\"");
  stock.title = keys.words("title");
  if (keys.has("unit")) keys.text().unit = keys.choice("unit", Unit::mm, {{"mm", Unit::mm}, {"in", Unit::in}});
  stock.unit = keys.text().unit.value_or(Unit::mm);
}

/// Every kind of half and every spare is told by its id.
void check_id(TomlText& text, const Item& item, const std::string& id, std::set<std::string>& seen) {
  const toml::node* where = item.table->get("id");
  if (where == nullptr) return;
  if (!is_plain_name(id))
    text.wrong(*where, item.title + " id: " + quoted(id) + " cannot be typed as one word",
               "leave out blanks, slashes and control characters");
  else if (!seen.insert(id).second)
    text.wrong(*where, item.title + " id: " + quoted(id) + " stands there twice", "give each kind its own id");
}

/// One word of the machine shop for each feature.
void check_once(TomlText& text, const Item& item, const std::string& feature, std::set<std::string>& seen) {
  if (!seen.insert(feature).second)
    text.wrong(*item.table, item.title + " " + quoted(feature) + " stands there twice", "keep one of them");
}

Stock read_stock(TomlText& text, const toml::table& root, const Spec& spec) {
  Keys keys(text, root, "the stock", {"format", "title", "unit", "shell", "part", "grind", "hone"});
  Stock stock;
  read_head(keys, stock);
  std::set<std::string> ids, ground, honed;
  for (const Item& item : read_items(keys, "shell")) {
    stock.shells.push_back(read_shell(text, spec, item));
    check_id(text, item, stock.shells.back().id, ids);
  }
  for (const Item& item : read_items(keys, "part")) {
    stock.parts.push_back(read_part(text, spec, item));
    check_id(text, item, stock.parts.back().id, ids);
  }
  for (const Item& item : read_items(keys, "grind")) {
    stock.grinds.push_back(read_grind(text, spec, item));
    check_once(text, item, stock.grinds.back().feature, ground);
  }
  for (const Item& item : read_items(keys, "hone")) {
    stock.hones.push_back(read_hone(text, spec, item));
    check_once(text, item, stock.hones.back().feature, honed);
  }
  return stock;
}

}  // namespace

std::vector<Item> read_items(Keys& keys, std::string_view key) {
  if (!keys.has(key)) return {};
  const std::string title = "[[" + std::string(key) + "]]";
  const auto* array = keys.find(key)->as_array();
  std::vector<Item> items;
  if (array != nullptr)
    for (const auto& element : *array)
      if (const auto* table = element.as_table()) items.push_back({title, table});
  if (array == nullptr || items.size() != array->size())
    keys.wrong(key, std::string(key) + " is no list of tables", "write a line " + title + " and its keys below");
  return items;
}

std::string read_feature_name(Keys& keys, const Spec& spec) {
  const std::string name = keys.required("feature", "name the feature it is for");
  const Feature* feature = spec.find(name);
  if (feature != nullptr && feature->kind == Kind::check)
    keys.wrong("feature", "feature: there is no size at the check " + quoted(name), "name a feature with a size");
  return name;
}

std::optional<Length> length_above_zero(Keys& keys, std::string_view key) {
  const auto found = keys.length(key);
  if (found && *found <= Length()) keys.wrong(key, std::string(key) + " is not above zero", "write the size itself");
  return found;
}

int read_count(Keys& keys) {
  return keys.whole("count", 0, kMostCount).value_or(1);
}

}  // namespace stock_file

Result<Stock> parse_stock(std::string_view text, const std::string& file, const Spec& spec) {
  return toml_file::read_toml(text, file, "stock", [&](toml_file::TomlText& into, const toml::table& root) {
    return stock_file::read_stock(into, root, spec);
  });
}

}  // namespace tenth
