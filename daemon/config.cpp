#include "daemon/config.hpp"

#include <toml++/toml.h>

#include <fstream>
#include <sstream>
#include <vector>

#include "daemon/alerting/take_alert.hpp"
#include "daemon/config_keys.hpp"
#include "daemon/page/address.hpp"
#include "schema/wire/paths.hpp"

namespace tenth {
namespace {

using config::take_text;
using config::take_whole;
using config::unknown_key;
using config::wrong;

Result<void> take_http(const std::string& text, PageConfig& page) {
  page.at.reset();
  if (text == "off") return {};
  TENTH_TRY(page.at, page_endpoint(text));
  return {};
}

Result<void> take_hosts(const std::string& file, const toml::node& node, std::vector<std::string>& hosts) {
  const toml::array* const array = node.as_array();
  if (array == nullptr)
    return wrong(file, node.source().begin, "`hosts` is a list", "write hosts = [\"bench.example\"]");
  for (const toml::node& each : *array) {
    if (auto taken = take_text(file, each, hosts.emplace_back()); !taken) return taken;
    const bool bracketed = hosts.back().starts_with('[') && hosts.back().ends_with(']');  // an IPv6 address
    if (!bracketed && hosts.back().find_first_of(":/") != std::string::npos)
      return wrong(file, each.source().begin, "`" + hosts.back() + "` is no name of a machine",
                   "write the name alone, without port and path");
  }
  return {};
}

Result<void> take_page(const std::string& file, const toml::node& node, PageConfig& page) {
  const toml::table* const table = node.as_table();
  if (table == nullptr) return wrong(file, node.source().begin, "`page` is a table", "write [page]");
  for (const auto& [key, value] : *table) {
    if (key != "hosts" && key != "token_file") return unknown_key(file, key, {"hosts", "token_file"});
    if (auto taken = key == "hosts" ? take_hosts(file, value, page.hosts) : take_text(file, value, page.token_file);
        !taken)
      return taken;
  }
  return {};
}

Result<void> take_intake(const std::string& file, const toml::node& node, IntakeRules& intake) {
  const toml::table* const table = node.as_table();
  if (table == nullptr) return wrong(file, node.source().begin, "`intake` is a table", "write [intake]");
  for (const auto& [key, value] : *table) {
    Result<void> taken;
    if (key == "settle_ms")
      taken = take_whole(file, value, intake.settle_ms);
    else if (key == "setting_life_h")
      taken = take_whole(file, value, intake.setting_life_h);
    else if (key == "temperature_life_h")
      taken = take_whole(file, value, intake.temperature_life_h);
    else
      return unknown_key(file, key, {"settle_ms", "setting_life_h", "temperature_life_h"});
    if (!taken) return taken;
  }
  return {};
}

Result<void> take_gauge(const std::string& file, const toml::node& node, IntakeRules& intake) {
  const toml::table* const table = node.as_table();
  if (table == nullptr) return wrong(file, node.source().begin, "`gauge` is a table", "write [gauge]");
  for (const auto& [key, value] : *table) {
    std::string word;
    if (key != "overdue") return unknown_key(file, key, {"overdue"});
    if (auto taken = take_text(file, value, word); !taken) return taken;
    if (word != "alert" && word != "suspect")
      return wrong(file, value.source().begin, "`" + word + "` is nothing that an overdue gauge can lead to",
                   "alert or suspect");
    intake.overdue_suspect = word == "suspect";
  }
  return {};
}

Result<void> take_key(const std::string& file, const toml::key& key, const toml::node& node, Config& config) {
  std::string text;
  if (key == "intake") return take_intake(file, node, config.intake);
  if (key == "gauge") return take_gauge(file, node, config.intake);
  if (key == "alert") return take_alert(file, node, config.alert);
  if (key == "page") return take_page(file, node, config.page);
  if (key != "state" && key != "socket" && key != "http")
    return unknown_key(file, key, {"state", "socket", "http", "intake", "gauge", "alert", "page"});
  if (auto taken = take_text(file, node, text); !taken) return taken;
  if (key == "state") config.state = text;
  if (key == "socket") config.socket = text;
  return key == "http" ? take_http(text, config.page) : Result<void>();
}

/// The text of the file, or nothing where a default file is absent.
Result<std::optional<std::string>> config_text(const std::string& file, bool named) {
  std::error_code error;
  if (!named && !std::filesystem::exists(file, error)) return std::nullopt;
  std::ifstream stream(file, std::ios::binary);
  if (std::filesystem::is_directory(file, error)) stream.setstate(std::ios::failbit);
  std::ostringstream text;
  if (stream) text << stream.rdbuf();
  if (!stream || stream.bad())
    return refuse("config", "the configuration file " + file + " cannot be read",
                  "give the path of a file that is there");
  return text.str();
}

}  // namespace

Result<Config> read_config(std::string_view text, const std::string& file, Config config) {
  try {
    const toml::table table = toml::parse(text, file);
    for (const auto& [key, node] : table)
      if (auto taken = take_key(file, key, node, config); !taken) return tl::unexpected(taken.error());
  } catch (const toml::parse_error& error) {
    return wrong(file, error.source().begin, std::string(error.description()),
                 "see the configuration section of the README");
  }
  return config;
}

Result<Config> settle_config(const Options& options) {
  Config config{default_state(), default_socket(), {}, {}, {}};
  const std::string file = options.config.value_or(default_config().string());
  TENTH_TRY(const std::optional<std::string> text, config_text(file, options.config.has_value()));
  if (text) {
    TENTH_TRY(config, read_config(*text, file, config));
  }
  if (options.state) config.state = *options.state;
  if (options.socket) config.socket = *options.socket;
  if (options.http)
    if (auto taken = take_http(*options.http, config.page); !taken) return tl::unexpected(taken.error());
  return config;
}

}  // namespace tenth
