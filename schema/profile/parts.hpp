#pragma once

#include "schema/profile/profile.hpp"
#include "schema/toml/keys.hpp"

/// The groups of a profile file, each read and checked by itself. An absent group gives the defaults.
namespace tenth::profile_file {

using namespace toml_file;

LineSettings read_line(Keys& file);
Framing read_framing(Keys& file, Speaks speaks);
ValueForm read_value(Keys& file, Speaks speaks);
StatusForm read_status(Keys& file);
Trigger read_trigger(Keys& file, Speaks speaks);
ModbusForm read_modbus(Keys& file, Speaks speaks);
std::map<std::string, std::string> read_key_map(Keys& file, Speaks speaks);
Limits read_range(Keys& file);

/// True where frames are characters that a pattern matches.
bool has_pattern(Speaks speaks);

/// A list of texts, none of them empty where `may_be_empty` is false.
std::vector<std::string> texts(Keys& keys, std::string_view key, bool may_be_empty);

/// The group of that name; says so where it is there although this format has no use for it.
const toml::table* group(Keys& file, std::string_view name, bool allowed, const std::string& only_with);

}  // namespace tenth::profile_file
