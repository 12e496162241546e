#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string gauge;
  std::vector<std::string> size;
};

void show_waiting(Context& context, const Json& answer) {
  const Unit unit = context.unit_for(answer.value("unit", Json()));
  context.world.out << "> press " << text(answer, "gauge") << " on its master of "
                    << with_unit(length(answer, "master_mm"), unit) << " within " << text(answer, "within_s") << " s\n";
}

Action declare_master(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("GAUGE", words->gauge, "The gauge to set")->required();
  app.add_option("SIZE", words->size, "The size of the master")->required()->expected(1, 2);
  return [words](Context& context) -> Result<Exit> {
    const auto size = length_text(words->size, context.options.unit);
    if (!size) return tl::unexpected(size.error());
    const Json params = {{"gauge", words->gauge}, {"size", *size}, {"unit", context.unit_name()}};
    return context.ask("master", params, show_waiting);
  };
}

Action declare_recheck(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("GAUGE", words->gauge, "The gauge to check")->required();
  return [words](Context& context) { return context.ask("recheck", {{"gauge", words->gauge}}, show_waiting); };
}

}  // namespace

std::vector<Command> master_commands() {
  return {
      {"master",
       "Set a gauge on a master of this size",
       {"tenth master bore 83.000 --unit mm", "tenth master bore '3.2677 in'"},
       declare_master},
      {"recheck", "Check a gauge on its master; the zero stays", {"tenth recheck bore"}, declare_recheck},
  };
}

}  // namespace tenth::cli
