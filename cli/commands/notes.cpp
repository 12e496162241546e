#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/lines.hpp"
#include "cli/words.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string text, gauge;
};

void show_note(Context& context, const Json& note) {
  context.world.out << note_line(context.ink, note) << '\n';
}

Action declare_note(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("TEXT", words->text, "What is to be remembered")->required()->check(not_blank());
  app.add_option("--gauge", words->gauge, "About the place of this gauge")->type_name("G");
  return [words](Context& context) {
    return context.ask("note", {{"text", words->text}, {"gauge", given(words->gauge)}}, show_note);
  };
}

}  // namespace

std::vector<Command> note_commands() {
  return {{"note",
           "Write something down about the engine, at the place that stands",
           {"tenth note 'scratch below the ring turn, 2 o\'clock'", "tenth note 'block at 24 C since noon'"},
           declare_note}};
}

}  // namespace tenth::cli
