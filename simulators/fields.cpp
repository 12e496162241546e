#include "simulators/fields.hpp"

#include <algorithm>

namespace tenth::simulators {

namespace {

std::string joined(const auto& words, std::string_view between) {
  std::string text;
  for (const auto& word : words) text += (text.empty() ? "" : std::string(between)) + std::string(word);
  return text;
}

std::string quoted(std::string_view word) {
  return "'" + std::string(word) + "'";
}

}  // namespace

std::string place(const std::string& file, const toml::source_region& source) {
  return file + ":" + std::to_string(source.begin.line) + ":" + std::to_string(source.begin.column) + ": ";
}

const toml::node* Fields::find(std::string_view key) {
  asked_.emplace(key);
  return table_.get(key);
}

void Fields::fail(const std::string& where, const std::string& what) {
  if (!error_) error_ = where + what;
}

std::optional<Text> Fields::text(std::string_view key) {
  const auto* node = find(key);
  if (!node) return std::nullopt;
  if (const auto* found = node->as_string()) return Text{found->get(), where(*node)};
  fail(where(*node), std::string(key) + " is a text: put it in quotes");
  return std::nullopt;
}

Text Fields::required_text(std::string_view key, std::string_view example) {
  if (auto found = text(key); found && !found->value.empty()) return *found;
  fail(where(table_), quoted(key) + " is missing: write " + std::string(key) + " = \"" + std::string(example) + "\"");
  return {};
}

bool Fields::flag(std::string_view key) {
  const auto* node = find(key);
  if (!node) return false;
  if (const auto* found = node->as_boolean()) return found->get();
  fail(where(*node), std::string(key) + " is true or false");
  return false;
}

int Fields::whole(std::string_view key, int otherwise, int least, int most) {
  const auto* node = find(key);
  if (!node) return otherwise;
  const auto* found = node->as_integer();
  if (found && found->get() >= least && found->get() <= most) return static_cast<int>(found->get());
  fail(where(*node),
       std::string(key) + " is a whole number from " + std::to_string(least) + " to " + std::to_string(most));
  return otherwise;
}

std::optional<Amount> Fields::amount(std::string_view key) {
  const auto found = text(key);
  if (!found) return std::nullopt;
  const auto read = parse_amount(found->value);
  if (read) return *read;
  fail(found->where, read.error());
  return std::nullopt;
}

std::vector<Text> Fields::texts(std::string_view key) {
  std::vector<Text> found;
  const auto* node = find(key);
  if (!node) return found;
  const auto* array = node->as_array();
  if (!array) fail(where(*node), std::string(key) + " is a list of texts: [\"…\", \"…\"]");
  for (std::size_t i = 0; array && i < array->size(); ++i) {
    const auto& item = (*array)[i];
    const auto* text = item.as_string();
    if (!text) fail(where(item), std::string(key) + " is a list of texts: put this in quotes");
    if (text) found.push_back({text->get(), where(item)});
  }
  return found;
}

std::vector<const toml::table*> Fields::tables(std::string_view key) {
  std::vector<const toml::table*> found;
  const auto* node = find(key);
  const auto* array = node ? node->as_array() : nullptr;
  for (std::size_t i = 0; array && i < array->size(); ++i) {
    if (const auto* table = (*array)[i].as_table()) found.push_back(table);
  }
  if (found.empty() || found.size() != array->size()) {
    fail(where(node ? *node : table_), "no " + quoted(key) + ": begin each with a line [[" + std::string(key) + "]]");
  }
  return found;
}

std::size_t Fields::choice(std::string_view key, std::initializer_list<std::string_view> words) {
  const auto found = text(key);
  if (!found) return 0;
  const auto* word = std::ranges::find(words, found->value);
  if (word != words.end()) return static_cast<std::size_t>(word - words.begin());
  fail(found->where, quoted(found->value) + " is unknown: " + std::string(key) + " is " + joined(words, ", "));
  return 0;
}

Result<void> Fields::finish() {
  for (const auto& [key, node] : table_) {
    if (asked_.contains(key.str())) continue;
    fail(place(file_, key.source()), "unknown key " + quoted(key.str()) + ": known here are " + joined(asked_, ", "));
  }
  if (error_) return tl::unexpected(*error_);
  return {};
}

}  // namespace tenth::simulators
