#include <csignal>
#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/ending.hpp"
#include "cli/render/event.hpp"
#include "cli/words.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::optional<std::int64_t> since;
  std::string engine;
};

Result<Exit> watch(const Words& words, Context& context) {
  end_at_once_on({SIGINT, SIGPIPE});  // each line is out before the next is waited for
  const auto begun = context.call("watch", {{"since", or_null(words.since)}, {"engine", given(words.engine)}});
  if (!begun) return tl::unexpected(begun.error());
  while (context.world.out) {
    const auto event = context.next_event();
    if (!event) return tl::unexpected(event.error());
    if (context.options.json)
      context.print(*event);
    else
      context.world.out << event_text(context.ink, *event, context.options.unit) << '\n' << std::flush;
  }
  return Exit::done;  // the output takes no more, which run() says
}

Action declare_watch(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("--since", words->since, "First all that happened after this entry")
      ->type_name("SEQ")
      ->check(whole_from(0));
  app.add_option("--engine", words->engine, "Of this engine only")->type_name("NAME");
  return [words](Context& context) { return watch(*words, context); };
}

}  // namespace

std::vector<Command> watch_commands() {
  return {{"watch",
           "Show what happens, until interrupted",
           {"tenth watch", "tenth watch --unit in", "tenth watch --json --since 0"},
           declare_watch}};
}

}  // namespace tenth::cli
