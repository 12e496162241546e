#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/lines.hpp"
#include "cli/render/mark.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"

namespace tenth::cli {
namespace {

struct Clear {
  std::int64_t id = 0;
  std::string note;
};

void show_alert(Context& context, const Json& alert) {
  const auto mark = alert_mark(text(alert, "state"), text(alert, "severity"));
  context.world.out << inked(context.ink, mark) << wrapped(alert_words(alert), kMarkColumns, kMarkColumns);
}

void show_alerts(Context& context, const Json& alerts) {
  if (alerts.empty()) context.world.out << "no alerts\n";
  for (const auto& alert : alerts) show_alert(context, alert);
}

Action declare_alerts(CLI::App& app) {
  auto all = std::make_shared<bool>(false);
  app.add_flag("--all", *all, "Also those that ended or were cleared");
  return [all](Context& context) { return context.ask("alerts", {{"all", *all}}, show_alerts); };
}

Action declare_clear(CLI::App& app) {
  auto clear = std::make_shared<Clear>();
  app.add_option("ID", clear->id, "The alert's number")->required()->check(whole_from(1));
  app.add_option("--note", clear->note, "What was done about it")->required()->type_name("TEXT")->check(not_blank());
  return [clear](Context& context) {
    return context.ask("alerts.clear", {{"id", clear->id}, {"note", clear->note}}, show_alert);
  };
}

}  // namespace

std::vector<Command> alert_commands() {
  return {
      {"alerts", "Show what somebody must see", {"tenth alerts", "tenth alerts --all --json"}, declare_alerts},
      {"alerts clear",
       "Say that an alert was seen; no verdict changes",
       {"tenth alerts clear 57 --note 'shells swapped'"},
       declare_clear},
  };
}

}  // namespace tenth::cli
