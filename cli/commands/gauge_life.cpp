#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/gauge.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"

namespace tenth::cli {
namespace {

struct Calibrated {
  std::string name, on, due, certificate, by, uncertainty;
};

struct Doubted {
  std::string name, since, reason;
};

void show_doubted(Context& context, const Json& answer) {
  const auto readings = answer.value("seqs", Json::array()).size();
  context.world.out << "! gauge " << text(answer, "gauge") << " is in doubt since " << text(answer, "since") << "; "
                    << readings << (readings == 1 ? " reading is" : " readings are") << " suspect\n";
}

Action declare_calibrate(CLI::App& app) {
  auto words = std::make_shared<Calibrated>();
  app.add_option("NAME", words->name, "The gauge")->required();
  app.add_option("--on", words->on, "The day on which it was calibrated")->required()->type_name("DATE");
  app.add_option("--due", words->due, "The last day on which that holds")->required()->type_name("DATE");
  app.add_option("--certificate", words->certificate, "The number of the certificate")
      ->required()
      ->type_name("TEXT")
      ->check(not_blank());
  app.add_option("--by", words->by, "Who did it")->type_name("TEXT");
  app.add_option("--uncertainty", words->uncertainty, "Expanded uncertainty (k = 2) of a size from now on")
      ->type_name("L");
  return [words](Context& context) {
    const Json params = {{"name", words->name},        {"on", words->on},
                         {"due", words->due},          {"certificate", words->certificate},
                         {"by", given(words->by)},     {"uncertainty", given(words->uncertainty)},
                         {"unit", context.unit_name()}};
    return context.ask("gauge.calibrate", params, show_gauge);
  };
}

Action declare_doubt(CLI::App& app) {
  auto words = std::make_shared<Doubted>();
  app.add_option("NAME", words->name, "The gauge; also one that was dropped")->required();
  app.add_option("--since", words->since, "From then on: 2026-03-01T08:15:00Z, or a day")
      ->required()
      ->type_name("TIME");
  app.add_option("--reason", words->reason, "Why; it is recorded")->required()->type_name("TEXT")->check(not_blank());
  return [words](Context& context) {
    return context.ask("gauge.doubt", {{"name", words->name}, {"since", words->since}, {"reason", words->reason}},
                       show_doubted);
  };
}

}  // namespace

std::vector<Command> gauge_life_commands() {
  return {
      {"gauge calibrate",
       "Record a calibration of a gauge: it holds through the due day",
       {"tenth gauge calibrate mic --on 2026-03-01 --due 2027-03-01 --certificate C-1188 --by 'the calibration room'"},
       declare_calibrate},
      {"gauge doubt",
       "Put a gauge in doubt: its readings since then are suspect, on every engine",
       {"tenth gauge doubt mic --since 2026-02-14 --reason 'fell off the bench, anvil chipped'"},
       declare_doubt},
  };
}

}  // namespace tenth::cli
