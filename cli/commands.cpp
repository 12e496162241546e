#include "cli/command.hpp"

namespace tenth::cli {

std::vector<Command> all_commands() {
  std::vector<Command> all;
  for (const auto& family :
       {engine_commands,     operator_commands,    gauge_commands,      gauge_port_commands, gauge_record_commands,
        gauge_life_commands, take_commands,        pedal_commands,      place_commands,      master_commands,
        enter_commands,      note_commands,        stage_commands,      part_commands,       shop_commands,
        import_commands,     temperature_commands, correction_commands, watch_commands,      speak_commands,
        bench_commands,      reading_commands,     check_commands,      remedy_commands,     study_commands,
        alert_commands,      export_commands,      sheet_commands,      audit_commands,      status_commands,
        page_commands}) {
    for (auto& command : family()) all.push_back(std::move(command));
  }
  return all;
}

}  // namespace tenth::cli
