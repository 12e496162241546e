#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "daemon/alerting/alert_config.hpp"
#include "daemon/draft.hpp"
#include "daemon/page/page_config.hpp"
#include "rules/result.hpp"

namespace tenth {

/// What `tenthd` runs with: the configuration file, beaten by options.
struct Config {
  std::filesystem::path state, socket;
  IntakeRules intake;
  AlertConfig alert = {};
  PageConfig page = {};
};

/// Options of the command line; empty ones leave the word to the file.
struct Options {
  std::optional<std::string> config, state, socket, http;
  bool new_ledger = false;
};

/// The text of a configuration file into `config`. Refused as wrong words (2) with file, line and column: an unknown
/// key, a value that is none, broken TOML.
Result<Config> read_config(std::string_view text, const std::string& file, Config config);

/// Defaults, then the file (the one named must be there; the default one may be absent), then options.
Result<Config> settle_config(const Options& options);

}  // namespace tenth
