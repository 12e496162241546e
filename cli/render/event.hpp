#pragma once

#include <optional>
#include <string>

#include "cli/render/ink.hpp"
#include "rules/length.hpp"
#include "schema/json/json.hpp"

namespace tenth::cli {

/// One line for one event, without its end. An event of a kind that is not known here is shown as it came.
std::string event_text(const Ink& ink, const Json& event, std::optional<Unit> unit);

}  // namespace tenth::cli
