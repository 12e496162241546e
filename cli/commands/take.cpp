#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/event.hpp"
#include "cli/render/study.hpp"
#include "cli/words.hpp"

namespace tenth::cli {

namespace {

struct Words {
  std::string gauge;
  std::optional<std::int64_t> turning_s;
};

void show_taken(Context& context, const Json& taken) {
  if (const auto study = taken.find("study"); study != taken.end()) return show_turn(context, *study);
  const bool reading = taken.contains("reading");
  Json event = taken.at(reading ? "reading" : "setting");
  event["event"] = reading ? "reading" : "setting";
  context.world.out << event_text(context.ink, event, context.options.unit) << '\n';
}

Result<Exit> take(const Words& words, Context& context) {
  if (words.turning_s && context.world.err_is_terminal)
    context.world.err << "rock the gauge through its smallest size for " << *words.turning_s << " s\n" << std::flush;
  const auto patience = Client::kPatience + std::chrono::seconds(words.turning_s.value_or(0));
  TENTH_TRY(const Json taken,
            context.call("take", {{"gauge", given(words.gauge)}, {"turning_s", or_null(words.turning_s)}}, patience));
  if (context.options.json)
    context.print(taken);
  else
    show_taken(context, taken);
  return Exit::done;
}

Action declare_take(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("--gauge", words->gauge, "The gauge; needed where several show values")->type_name("G");
  app.add_option("--turning", words->turning_s, "The turning point over so many seconds of rocking")
      ->type_name("S")
      ->check(whole_from(1));
  return [words](Context& context) { return take(*words, context); };
}

}  // namespace

std::vector<Command> take_commands() {
  return {{"take",
           "Make a reading of what a gauge shows now",
           {"tenth take", "tenth take --gauge probe", "tenth take --gauge bore --turning 5"},
           declare_take}};
}

}  // namespace tenth::cli
