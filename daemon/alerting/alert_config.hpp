#pragma once

#include <optional>
#include <string>
#include <vector>

#include "daemon/alerting/http_target.hpp"

namespace tenth {

/// What is to be done about alerts in the user's session. A system service has none: `tenth speak` asks for this
/// (`status`) and does it.
struct InSession {
  bool sound = true;     ///< alerts are heard
  bool desktop = false;  ///< alerts are shown as desktop notices
};

/// `[alert]` of the configuration file: whom alerts reach besides those who watch.
struct AlertConfig {
  std::vector<std::string> program;  ///< its path and arguments; empty: none
  std::optional<HttpTarget> url;
  InSession in_session;
};

}  // namespace tenth
