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
  std::string name, spec, reason;
};

void show_added(Context& context, const Json& engine) {
  context.world.out << "engine " << text(engine, "engine") << " added: " << text(engine, "features") << " features, "
                    << text(engine, "places") << " places to measure"
                    << (engine.value("in_use", Json()) == true ? "; it is in use" : "") << '\n';
}

void show_used(Context& context, const Json& engine) {
  context.world.out << "engine " << text(engine, "engine") << " is in use; choose a place with 'tenth round'\n";
}

std::string change_line(const Json& change) {
  const auto key = text(change, "key"), name = text(change, "name"), from = text(change, "from"),
             to = text(change, "to");
  std::string line = text(change, "of") + (name.empty() ? "" : " " + name) + (key.empty() ? "" : " " + key) + ": ";
  if (from.empty()) return line + (key.empty() ? "new, " : "now ") + to;
  return line + (to.empty() ? "gone, was " + from : from + ", now " + to);
}

void show_respec(Context& context, const Json& answer) {
  const Json changes = answer.value("changes", Json::array());
  context.world.out << "engine " << text(answer, "engine") << " is held against its new spec"
                    << (changes.empty() ? ", which asks for the same" : "") << "  #" << text(answer, "spec") << '\n';
  for (const auto& change : changes) context.world.out << "  " << wrapped(change_line(change), 4, 2);
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

/// The engine's name and its spec as the daemon takes them: the whole text.
Result<Json> with_spec(const Words& words) {
  const auto spec = read_text(words.spec, kMostRequestBytes);
  if (!spec) return tl::unexpected(spec.error());
  if (valid_utf8(*spec) != *spec)
    return refuse("spec", words.spec + " is no text in UTF-8", "give a spec file, saved as UTF-8");
  return Json{{"name", words.name}, {"file", words.spec}, {"text", *spec}};
}

Action declare_add(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("NAME", words->name, "The engine's name or job number")->required()->check(not_blank());
  app.add_option("--spec", words->spec, "Its spec file")->required()->type_name("FILE");
  return [words](Context& context) -> Result<Exit> {
    TENTH_TRY(const Json params, with_spec(*words));
    return context.ask("engine.add", params, show_added);
  };
}

Action declare_respec(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("NAME", words->name, "An engine that was added")->required();
  app.add_option("--spec", words->spec, "The spec file that it is held against from now on")
      ->required()
      ->type_name("FILE");
  app.add_option("--reason", words->reason, "Why; it is recorded")->required()->type_name("TEXT")->check(not_blank());
  return [words](Context& context) -> Result<Exit> {
    TENTH_TRY(Json params, with_spec(*words));
    params["reason"] = words->reason;
    return context.ask("engine.respec", params, show_respec);
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
      {"engine respec",
       "Hold an engine against another version of its spec; readings stay",
       {"tenth engine respec K31 --spec k31.toml --reason 'ring maker asks for a wider gap'"},
       declare_respec},
      {"engine list", "Show all engines", {"tenth engine list"}, declare_list},
  };
}

}  // namespace tenth::cli
