#pragma once

#include <toml++/toml.h>

#include <cstdint>
#include <string>
#include <vector>

#include "rules/result.hpp"

namespace tenth::config {

// What the tables of the configuration file share. Refusals are wrong words (2) with file, line and column.

tl::unexpected<Refusal> wrong(const std::string& file, const toml::source_position& at, const std::string& what,
                              const std::string& remedy);
/// With the nearest of the known keys, else all of them.
tl::unexpected<Refusal> unknown_key(const std::string& file, const toml::key& key,
                                    const std::vector<std::string>& known);

Result<void> take_whole(const std::string& file, const toml::node& node, std::int64_t& into);
Result<void> take_text(const std::string& file, const toml::node& node, std::string& into);
Result<void> take_yes(const std::string& file, const toml::node& node, bool& into);
/// A list of texts, with one at least.
Result<void> take_texts(const std::string& file, const toml::node& node, std::vector<std::string>& into);

}  // namespace tenth::config
