#pragma once

#include <string>
#include <string_view>

#include "rules/result.hpp"

namespace tenth {

/// Where an alert is posted to: the parts of "http://host[:port][/path]", as they go on the wire.
struct HttpTarget {
  std::string host;  ///< a name or an address; one of IPv6 without its brackets
  std::string port = "80";
  std::string path = "/";

  /// What the header `Host` says.
  std::string authority() const;
  friend bool operator==(const HttpTarget&, const HttpTarget&) = default;
};

/// Refused (2, `url`): no URL of plain http, a user or a fragment in it, a port that is none.
Result<HttpTarget> parse_http_target(std::string_view url);

}  // namespace tenth
