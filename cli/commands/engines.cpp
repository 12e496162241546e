#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"
#include "schema/json/escape.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string name, spec;
};

void show_added(Context& context, const Json& engine) {
  context.world.out << "engine " << text(engine, "engine") << " added: " << text(engine, "features") << " features, "
                    << text(engine, "places") << " places to measure"
                    << (engine.value("in_use", Json()) == true ? "; it is in use" : "") << '\n';
}

void show_used(Context& context, const Json& engine) {
  context.world.out << "engine " << text(engine, "engine") << " is in use; choose a place with 'tenth round'\n";
}

void show_list(Context& context, const Json& engines) {
  if (engines.empty()) context.world.out << "no engine yet; add one with 'tenth engine add NAME --spec FILE'\n";
  for (const auto& engine : engines) {
    const bool used = engine.value("in_use", Json()) == true;
    context.world.out << (used ? "> " : "  ") << left(text(engine, "engine"), 16) << "  "
                      << right(text(engine, "readings"), 6) << " readings  " << text(engine, "title")
                      << (used ? "  (in use)" : "") << '\n';
  }
}

Action declare_add(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("NAME", words->name, "The engine's name or job number")->required()->check(not_blank());
  app.add_option("--spec", words->spec, "Its spec file")->required()->type_name("FILE");
  return [words](Context& context) -> Result<Exit> {
    const auto spec = read_text(words->spec, kMostRequestBytes);
    if (!spec) return tl::unexpected(spec.error());
    if (valid_utf8(*spec) != *spec)
      return refuse("spec", words->spec + " is no text in UTF-8", "give a spec file, saved as UTF-8");
    return context.ask("engine.add", {{"name", words->name}, {"file", words->spec}, {"text", *spec}}, show_added);
  };
}

Action declare_use(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("NAME", words->name, "An engine that was added")->required();
  return [words](Context& context) { return context.ask("engine.use", {{"name", words->name}}, show_used); };
}

Action declare_list(CLI::App&) {
  return [](Context& context) { return context.ask("engine.list", Json::object(), show_list); };
}

}  // namespace

std::vector<Command> engine_commands() {
  return {
      {"engine add", "Add an engine with its spec", {"tenth engine add K31 --spec k31.toml"}, declare_add},
      {"engine use", "Work on this engine from now on", {"tenth engine use K31"}, declare_use},
      {"engine list", "Show all engines", {"tenth engine list"}, declare_list},
  };
}

}  // namespace tenth::cli
