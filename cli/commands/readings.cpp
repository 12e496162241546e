#include "cli/render/readings.hpp"

#include <memory>

#include "cli/command.hpp"
#include "cli/words.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string engine, feature, index, gauge, since;
  bool all = false;
};

Result<Exit> ask(const Words& words, Context& context) {
  Json params = {{"engine", given(words.engine)},
                 {"feature", given(words.feature)},
                 {"index", given(words.index)},
                 {"gauge", given(words.gauge)},
                 {"all", words.all}};
  if (!words.since.empty()) {
    const auto since = time_text(words.since);
    if (!since) return tl::unexpected(since.error());
    params["since"] = *since;
  }
  return context.ask("readings", params, show_readings);
}

Action declare_readings(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("--engine", words->engine, "Of this engine; else of the one in use")->type_name("NAME");
  app.add_option("--feature", words->feature, "Of this feature")->type_name("F");
  app.add_option("--index", words->index, "Of this index of it")->type_name("N");
  app.add_option("--gauge", words->gauge, "Taken with this gauge")->type_name("G");
  app.add_option("--since", words->since, "From 2026-03-01T08:15:00Z on, or from a local day")->type_name("TIME");
  app.add_flag("--all", words->all, "Also superseded, suspect, void and placeless ones");
  return [words](Context& context) { return ask(*words, context); };
}

}  // namespace

std::vector<Command> reading_commands() {
  return {{"readings",
           "Show the readings that count",
           {"tenth readings", "tenth readings --feature bore --index 3 --all", "tenth readings --json"},
           declare_readings}};
}

}  // namespace tenth::cli
