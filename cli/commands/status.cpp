#include "cli/render/status.hpp"

#include "cli/command.hpp"

namespace tenth::cli {
namespace {

Action declare_status(CLI::App&) {
  return [](Context& context) { return context.ask("status", Json::object(), show_status); };
}

}  // namespace

std::vector<Command> status_commands() {
  return {{"status", "Show engine, place, gauges and ledger", {"tenth status"}, declare_status}};
}

}  // namespace tenth::cli
