#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/lines.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

struct Parts {
  std::vector<std::string> features;
  std::string to, ask, size, within;
};

void show_setup(Context& context, const Json& setup) {
  context.world.out << setup_line(context.ink, setup) << '\n';
}

Action declare_setup(CLI::App& app) {
  auto words = std::make_shared<std::pair<std::string, std::string>>();
  app.add_option("FEATURE", words->first, "What is measured")->required();
  app.add_option("yes", words->second, "It is set up as the spec asks")->required()->check(one_of({"yes"}));
  return [words](Context& context) {
    return context.ask("setup", {{"feature", words->first}, {"answer", words->second}}, show_setup);
  };
}

void show_sent(Context& context, const Json& sent) {
  context.world.out
      << send_line(context.ink, sent, context.options.unit) << '\n'
      << "  until 'tenth receive' readings on it are held as suspect; the sheet to go with it: tenth sheet "
      << joined(texts(sent, "features"), " ") << '\n';
}

Action declare_send(CLI::App& app) {
  auto parts = std::make_shared<Parts>();
  app.add_option("FEATURE", parts->features, "The features whose parts go")->required();
  app.add_option("--to", parts->to, "Who gets them")->required()->check(not_blank())->type_name("TEXT");
  app.add_option("--ask", parts->ask, "What is to be done")->required()->check(not_blank())->type_name("TEXT");
  app.add_option("--size", parts->size, "The size asked for; what comes back is held against it")->type_name("L");
  app.add_option("--within", parts->within, "How far it may be off, to either side")->type_name("L");
  return [parts](Context& context) {
    const Json params = {{"features", parts->features},
                         {"to", parts->to},
                         {"ask", parts->ask},
                         {"size", given(parts->size)},
                         {"within", given(parts->within)},
                         {"unit", context.unit_name()}};
    return context.ask("send", params, show_sent);
  };
}

void show_received(Context& context, const Json& received) {
  context.world.out << receive_line(context.ink, received) << '\n'
                    << "  measure them anew: tenth stage NAME " << joined(texts(received, "features"), " ") << '\n';
}

Action declare_receive(CLI::App& app) {
  auto features = std::make_shared<std::vector<std::string>>();
  app.add_option("FEATURE", *features, "The features whose parts are back")->required();
  return [features](Context& context) { return context.ask("receive", {{"features", *features}}, show_received); };
}

}  // namespace

std::vector<Command> shop_commands() {
  return {{"setup",
           "Say that what the spec asks to be done before measuring is done",
           {"tenth setup bore yes", "tenth setup main_bearing yes"},
           declare_setup},
          {"send",
           "Say that parts go to another shop, and what is asked of it",
           {"tenth send main_journal crankpin --to 'the crank grinder' --ask 'grind to the next undersize, polish'",
            "tenth send main_journal --to 'the crank grinder' --ask 'grind' --size 2.2385 --within 0.0002"},
           declare_send},
          {"receive", "Say that they are back", {"tenth receive main_journal crankpin"}, declare_receive}};
}

}  // namespace tenth::cli
