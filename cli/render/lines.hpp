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
std::string note_line(const Ink& ink, const Json& note);
/// "* decided   softer shells for main 4 (remedy r1): free, and within limits  #90"
std::string decision_line(const Ink& ink, const Json& decision);
/// "* installed  main_bearing 3 lower: std-coated-lower  #91"
std::string install_line(const Ink& ink, const Json& install);
/// "* mated      piston_clearance: bore 1 with piston 2; bore 2 has no mate now; piston 1 is free  #92"
std::string mate_line(const Ink& ink, const Json& mates);
/// "* set up    bore: torque plates fitted  #93"
std::string setup_line(const Ink& ink, const Json& setup);
/// "* sent      main_journal to the grinder: grind, 2.2385 in within 0.0002 in  #94"
std::string send_line(const Ink& ink, const Json& sent, std::optional<Unit> unit);
std::string receive_line(const Ink& ink, const Json& received);
std::string alert_line(const Ink& ink, const Json& alert);

/// "piston at 23.5, gauge at 22, within 1 K"
std::string temperature_words(const Json& told);

/// What an alert says, without its mark: "main_clearance 3 is … - shells swapped  #57".
std::string alert_words(const Json& alert);

}  // namespace tenth::cli
