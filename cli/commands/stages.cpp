#include <istream>
#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string name;
  std::vector<std::string> features;
  bool carry = false;
};

void show_stage(Context& context, const Json& stage) {
  context.world.out << "stage '" << text(stage, "stage") << "' begins for " << joined(texts(stage, "features")) << '\n';
}

/// Without features a stage makes everything unread: a person is asked, a script knows what it does.
bool agreed(const Words& words, World& world) {
  if (!words.features.empty() || !world.in_is_terminal) return true;
  world.err << "Begin stage '" << words.name << "' for all features? Their results count as unmeasured "
            << (words.carry ? "once replaced" : "until measured again") << ". [y/N] " << std::flush;
  std::string line;
  std::getline(world.in, line);
  return line == "y" || line == "Y" || line == "yes";
}

Result<Exit> begin(const Words& words, Context& context) {
  if (!agreed(words, context.world))
    return refuse("not_agreed", "no stage was begun", "name the features, or answer y");
  const Json params = {{"name", words.name}, {"features", words.features}, {"carry", words.carry}};
  return context.ask("stage", params, show_stage);
}

Action declare_stage(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("NAME", words->name, "What the parts are now")->required()->check(not_blank());
  app.add_option("FEATURE", words->features, "The features it is about; none: all");
  app.add_flag("--carry", words->carry, "Earlier readings count until replaced");
  return [words](Context& context) { return begin(*words, context); };
}

}  // namespace

std::vector<Command> stage_commands() {
  return {{"stage",
           "Say that parts have changed: they are measured anew",
           {"tenth stage 'after grinding' main_journal crankpin", "tenth stage 'as left' --carry"},
           declare_stage}};
}

}  // namespace tenth::cli
