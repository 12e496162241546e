#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"

namespace tenth::cli {

namespace {

const std::vector<std::string> kActs = {"take", "next", "back", "undo", "yes"};

struct Words {
  std::string name, port, press, hold;
};

void show_pedal(Context& context, const Json& pedal) {
  auto& out = context.world.out;
  out << text(pedal, "name") << ", " << text(pedal, "port") << ", " << text(pedal, "state") << ": press "
      << text(pedal, "press");
  if (const auto hold = text(pedal, "long"); !hold.empty()) out << ", long press " << hold;
  if (const auto why = text(pedal, "why"); !why.empty()) out << " (" << why << ")";
  out << '\n';
}

void show_pedals(Context& context, const Json& pedals) {
  if (pedals.empty()) context.world.out << "no pedal; add one with 'tenth pedal add'\n";
  for (const Json& pedal : pedals) show_pedal(context, pedal);
}

void show_dropped(Context& context, const Json& pedal) {
  context.world.out << "pedal " << text(pedal, "pedal") << " dropped\n";
}

Action declare_add(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("NAME", words->name, "What you call it")->required()->check(not_blank());
  app.add_option("--port", words->port, "keys:NAME, as 'tenth gauge find' shows it")->required();
  app.add_option("--press", words->press, "What a press does, take if nothing is said")->check(one_of(kActs));
  app.add_option("--long", words->hold, "What a press of over half a second does")->check(one_of(kActs));
  return [words](Context& context) {
    return context.ask(
        "pedal.add",
        {{"name", words->name}, {"port", words->port}, {"press", given(words->press)}, {"long", given(words->hold)}},
        show_pedal);
  };
}

Action declare_list(CLI::App&) {
  return [](Context& context) { return context.ask("pedal.list", Json::object(), show_pedals); };
}

Action declare_drop(CLI::App& app) {
  auto name = std::make_shared<std::string>();
  app.add_option("NAME", *name, "The pedal")->required();
  return [name](Context& context) { return context.ask("pedal.drop", {{"name", *name}}, show_dropped); };
}

}  // namespace

std::vector<Command> pedal_commands() {
  return {
      {"pedal add",
       "Add a foot pedal",
       {"tenth pedal add foot --port keys:foot-switch --press take --long undo"},
       declare_add},
      {"pedal list", "Show the pedals", {"tenth pedal list"}, declare_list},
      {"pedal drop", "Let go of a pedal", {"tenth pedal drop foot"}, declare_drop},
  };
}

}  // namespace tenth::cli
