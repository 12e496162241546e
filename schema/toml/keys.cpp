#include "schema/toml/keys.hpp"

#include <algorithm>
#include <set>
#include <tuple>

#include "rules/joined.hpp"

namespace tenth::toml_file {

bool is_plain_name(std::string_view name) {
  const auto barred = [](char c) { return static_cast<unsigned char>(c) <= 0x20 || c == 0x7F || c == '/'; };
  return !name.empty() && std::none_of(name.begin(), name.end(), barred);
}

std::string choices(std::string_view word, std::span<const std::string> candidates) {
  const std::string near = nearest(word, candidates);
  const std::string all = candidates.empty() ? "there are none" : "choose from: " + joined(candidates);
  return near.empty() ? all : "did you mean " + near + "? " + all;
}

Keys::Keys(TomlText& text, const toml::table& table, std::string title, std::initializer_list<std::string_view> known)
    : text_(text), table_(table), title_(std::move(title)) {
  const Names names(known.begin(), known.end());
  for (const toml::key* key : in_order(table))
    if (std::find(known.begin(), known.end(), key->str()) == known.end())
      text_.wrong(key->source().begin, title_ + " has no key " + quoted(key->str()), choices(key->str(), names));
}

std::string_view Keys::limit_key(std::string_view asked) const {
  if (has("limits")) return "limits";
  if (has(asked)) return asked;
  return asked == "min" ? "max" : "min";
}

void Keys::wrong(std::string_view key, const std::string& what, std::string remedy) {
  const toml::node* node = find(key);
  text_.wrong(node == nullptr ? table_ : *node, title_ + " " + what, std::move(remedy));
}

std::string Keys::words(std::string_view key) {
  if (!has(key)) return {};
  if (const auto* found = find(key)->as_string()) return found->get();
  wrong(key, std::string(key) + " is text", "put it in quotes");
  return {};
}

std::string Keys::required(std::string_view key, const std::string& remedy) {
  if (!has(key)) wrong(key, "needs " + std::string(key), remedy);
  return words(key);
}

std::optional<int> Keys::whole(std::string_view key, int least, int most) {
  if (!has(key)) return std::nullopt;
  const auto* found = find(key)->as_integer();
  if (found != nullptr && found->get() >= least && found->get() <= most) return static_cast<int>(found->get());
  const std::string range = std::to_string(least) + " to " + std::to_string(most);
  wrong(key, std::string(key) + " is no whole number from " + range, "write one from " + range);
  return std::nullopt;
}

bool Keys::yes(std::string_view key, bool otherwise) {
  if (!has(key)) return otherwise;
  if (const auto* found = find(key)->as_boolean()) return found->get();
  wrong(key, std::string(key) + " is neither true nor false", "write true or false, without quotes");
  return otherwise;
}

std::optional<Length> Keys::length(std::string_view key) {
  if (!has(key)) return std::nullopt;
  return text_.length(*find(key), title_ + " " + std::string(key));
}

std::optional<Length> Keys::length_not_negative(std::string_view key) {
  const auto found = length(key);
  if (found && *found < Length()) wrong(key, std::string(key) + " is below zero", "write how much is allowed");
  return found;
}

Limits Keys::pair(std::string_view key) {
  if (!has(key)) return {};
  const auto* two = find(key)->as_array();
  if (two == nullptr || two->size() != 2) {
    wrong(key, std::string(key) + " is no pair of lengths", "write [lower, upper]");
    return {};
  }
  const std::string what = title_ + " " + std::string(key);
  const auto lower = text_.length(*two->get(0), what), upper = text_.length(*two->get(1), what);
  if (!lower || !upper) return {};
  if (*lower > *upper)
    wrong(key,
          std::string(key) + ": the lower limit " + text_.shown(*lower) + " is above the upper " + text_.shown(*upper),
          "write [lower, upper]");
  return {lower, upper};
}

Names Keys::names(std::string_view key) {
  return has(key) ? read_names(text_, *find(key), title_ + " " + std::string(key)) : Names();
}

const toml::table* Keys::table(std::string_view key) {
  if (!has(key)) return nullptr;
  const auto* found = find(key)->as_table();
  if (found == nullptr)
    wrong(key, std::string(key) + " is no table",
          "write [" + std::string(key) + "] or [" + std::string(key) + ".NAME]");
  return found;
}

void Keys::no_choice(std::string_view key, std::span<const std::string> candidates) {
  const std::string word = find(key)->value_or(std::string());
  wrong(key, std::string(key) + " cannot be " + (word.empty() ? "this" : quoted(word)), choices(word, candidates));
}

Names read_names(TomlText& text, const toml::node& node, const std::string& key) {
  if (!node.is_array()) {
    text.wrong(node, key + " is no list of names", "write [\"…\", \"…\"]");
    return {};
  }
  std::set<std::string, std::less<>> seen;
  Names names;
  for (const auto& element : *node.as_array()) {
    const auto* name = element.as_string();
    if (name == nullptr)
      text.wrong(element, key + ": a name is text", "put it in quotes");
    else if (!is_plain_name(name->get()))
      text.wrong(element, key + ": the name " + quoted(name->get()) + " cannot be typed as one word",
                 "leave out blanks, slashes and control characters");
    else if (!seen.insert(name->get()).second)
      text.wrong(element, key + ": " + quoted(name->get()) + " stands there twice", "names must differ");
    else
      names.push_back(name->get());
  }
  if (names.empty()) text.wrong(node, key + " is empty", "name at least one, or leave the key out");
  return names;
}

void check_plain(TomlText& text, const Group& group) {
  if (!is_plain_name(group.name))
    text.wrong(*group.table, group.title + " cannot be typed as one word",
               "leave out blanks, slashes and control characters");
}

Limits read_limits(Keys& keys) {
  Limits limits = keys.pair("limits");
  if (!keys.has("min") && !keys.has("max")) return limits;
  if (keys.has("limits")) keys.wrong("limits", "has limits twice", "write limits, or min and max");
  limits = {keys.length("min"), keys.length("max")};
  if (limits.lower && limits.upper && *limits.lower > *limits.upper)
    keys.wrong("min", "min " + keys.text().shown(*limits.lower) + " is above max " + keys.text().shown(*limits.upper),
               "min is the lower limit");
  return limits;
}

std::vector<const toml::key*> in_order(const toml::table& table) {
  std::vector<const toml::key*> keys;
  for (const auto& [key, value] : table) keys.push_back(&key);
  std::sort(keys.begin(), keys.end(), [](const toml::key* a, const toml::key* b) {
    const auto& left = a->source().begin;
    const auto& right = b->source().begin;
    return std::tie(left.line, left.column) < std::tie(right.line, right.column);
  });
  return keys;
}

std::vector<Group> read_groups(TomlText& text, const toml::table* table, const std::string& key) {
  if (table == nullptr) return {};
  std::vector<Group> groups;
  for (const toml::key* name : in_order(*table)) {
    const std::string shown = is_plain_name(name->str()) ? std::string(name->str()) : quoted(name->str());
    const std::string title = "[" + key + "." + shown + "]";
    const auto* group = table->get(name->str())->as_table();
    if (group == nullptr)
      text.wrong(name->source().begin, title + " is no table", "write a line " + title + " and its keys below");
    else
      groups.push_back({std::string(name->str()), title, group});
  }
  return groups;
}

}  // namespace tenth::toml_file
