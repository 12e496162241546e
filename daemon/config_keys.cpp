#include "daemon/config_keys.hpp"

#include "rules/joined.hpp"
#include "rules/nearest.hpp"

namespace tenth::config {

tl::unexpected<Refusal> wrong(const std::string& file, const toml::source_position& at, const std::string& what,
                              const std::string& remedy) {
  return wrong_words("config", file + ":" + std::to_string(at.line) + ":" + std::to_string(at.column) + ": " + what,
                     remedy);
}

tl::unexpected<Refusal> unknown_key(const std::string& file, const toml::key& key,
                                    const std::vector<std::string>& known) {
  const std::string near = nearest(key.str(), known);
  return wrong(file, key.source().begin, "unknown key `" + std::string(key.str()) + "`",
               near.empty() ? "the keys here are " + joined(known) : "did you mean `" + near + "`?");
}

Result<void> take_whole(const std::string& file, const toml::node& node, std::int64_t& into) {
  const auto value = node.value_exact<std::int64_t>();
  if (!value || *value < 0 || *value > 1'000'000)
    return wrong(file, node.source().begin, "this is no whole number from 0 to 1000000", "give one");
  into = *value;
  return {};
}

Result<void> take_text(const std::string& file, const toml::node& node, std::string& into) {
  const auto value = node.value_exact<std::string>();
  if (!value || value->empty()) return wrong(file, node.source().begin, "this is no text", "give a text in quotes");
  into = *value;
  return {};
}

Result<void> take_yes(const std::string& file, const toml::node& node, bool& into) {
  const auto value = node.value_exact<bool>();
  if (!value) return wrong(file, node.source().begin, "this is neither true nor false", "write true or false");
  into = *value;
  return {};
}

Result<void> take_texts(const std::string& file, const toml::node& node, std::vector<std::string>& into) {
  const toml::array* const list = node.as_array();
  if (list == nullptr || list->empty())
    return wrong(file, node.source().begin, "this is no list of texts", "write [\"...\", \"...\"]");
  into.clear();
  for (const toml::node& each : *list)
    if (auto taken = take_text(file, each, into.emplace_back()); !taken) return taken;
  return {};
}

}  // namespace tenth::config
