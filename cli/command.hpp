#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "cli/context.hpp"

namespace tenth::cli {

/// What a command does once its words are understood.
using Action = std::function<Result<Exit>(Context&)>;

/// One command: what it is called ("engine add"), what `--help` says, and the words it takes.
struct Command {
  std::string name, help;
  std::vector<std::string> examples;
  Action (*declare)(CLI::App& app);  ///< adds its options; the action reads what was given
};

/// All commands, in the order of the help.
std::vector<Command> all_commands();

std::vector<Command> engine_commands();
std::vector<Command> operator_commands();
std::vector<Command> gauge_commands();
std::vector<Command> gauge_port_commands();
std::vector<Command> gauge_record_commands();
std::vector<Command> gauge_life_commands();
std::vector<Command> take_commands();
std::vector<Command> pedal_commands();
std::vector<Command> place_commands();
std::vector<Command> master_commands();
std::vector<Command> enter_commands();
std::vector<Command> note_commands();
std::vector<Command> stage_commands();
std::vector<Command> temperature_commands();
std::vector<Command> part_commands();
std::vector<Command> shop_commands();
std::vector<Command> import_commands();
std::vector<Command> correction_commands();
std::vector<Command> watch_commands();
std::vector<Command> speak_commands();
std::vector<Command> bench_commands();
std::vector<Command> reading_commands();
std::vector<Command> check_commands();
std::vector<Command> remedy_commands();
std::vector<Command> study_commands();
std::vector<Command> alert_commands();
std::vector<Command> export_commands();
std::vector<Command> sheet_commands();
std::vector<Command> audit_commands();
std::vector<Command> status_commands();
std::vector<Command> page_commands();

}  // namespace tenth::cli
