#pragma once

#include <toml++/toml.h>

#include <string>

#include "daemon/alerting/alert_config.hpp"

namespace tenth {

/// The table `[alert]` of the configuration file. Refused as wrong words (2) with file, line and column.
Result<void> take_alert(const std::string& file, const toml::node& node, AlertConfig& alert);

}  // namespace tenth
