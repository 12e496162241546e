#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/lines.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"

namespace tenth::cli {
namespace {

struct Decision {
  std::string text, remedy, reason;
};

void show_decision(Context& context, const Json& decision) {
  context.world.out << decision_line(context.ink, decision) << '\n';
}

Action declare_decide(CLI::App& app) {
  auto words = std::make_shared<Decision>();
  app.add_option("TEXT", words->text, "What is to be done")->required()->check(not_blank());
  app.add_option("--remedy", words->remedy, "The remedy that was chosen, as 'tenth remedies' names it")
      ->type_name("ID");
  app.add_option("--reason", words->reason, "Why; it is recorded")->required()->type_name("TEXT")->check(not_blank());
  return [words](Context& context) {
    const Json params = {{"text", words->text}, {"remedy", given(words->remedy)}, {"reason", words->reason}};
    return context.ask("decide", params, show_decision);
  };
}

}  // namespace

std::vector<Command> part_commands() {
  return {
      {"decide",
       "Keep what was chosen for the engine, and why; it changes nothing by itself",
       {"tenth decide 'main 4: softer shells from the shelf' --remedy r1 --reason 'free, and within limits'"},
       declare_decide},
  };
}

}  // namespace tenth::cli
