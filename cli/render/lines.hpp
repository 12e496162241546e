#pragma once

#include <optional>
#include <string>

#include "cli/render/ink.hpp"
#include "rules/length.hpp"
#include "schema/json/json.hpp"

namespace tenth::cli {

/// One line each, without its end, for what both answers and events tell.
/// "> next      bore 3 top thrust, 12 of 36 done (caps at torque)"; wrapped at 80 columns, `before` it stand so many.
std::string place_line(const Ink& ink, const Json& place, std::size_t before = 0);
/// "+ kept      bore 3 top thrust  83.0104 mm  in  #128"; lengths in `unit`, else in the gauge's own.
std::string reading_line(const Ink& ink, const Json& reading, std::optional<Unit> unit);
std::string answer_line(const Ink& ink, const Json& answer);
std::string alert_line(const Ink& ink, const Json& alert);

/// "piston at 23.5, gauge at 22, within 1 K"
std::string temperature_words(const Json& told);

/// What an alert says, without its mark: "main_clearance 3 is … - shells swapped  #57".
std::string alert_words(const Json& alert);

}  // namespace tenth::cli
