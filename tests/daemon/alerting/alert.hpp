#pragma once

#include "schema/json/json.hpp"

namespace tenth {

/// An `alert` event as the daemon tells it.
inline Json alert(std::int64_t id, const std::string& state = "open", const std::string& severity = "stop") {
  return {{"event", "alert"}, {"id", id}, {"state", state}, {"severity", severity}, {"text", "bore 3 is out"}};
}

}  // namespace tenth
