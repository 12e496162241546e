#include <memory>

#include "cli/command.hpp"
#include "cli/render/place.hpp"
#include "cli/words.hpp"

namespace tenth::cli {
namespace {

struct At {
  std::vector<std::string> words;
  std::string gauge;
  bool common = false, none = false;
};

struct RoundWords {
  std::vector<std::string> features;
  std::string by, from, gauge;
  bool again = false;
};

Result<Exit> go(const At& at, Context& context) {
  const int ways = int(!at.words.empty()) + int(at.common) + int(at.none);
  if (ways != 1)
    return wrong_words("words", "'tenth at' takes a place, or --common, or --none",
                       "write for example 'tenth at bore 3 top thrust'");
  if (at.common && at.gauge.empty())
    return wrong_words("words", "--common needs the gauge that goes back to the common place", "add --gauge G");
  if (at.common) return context.ask("at.common", {{"gauge", at.gauge}}, show_place);
  if (at.none) return context.ask("at.none", {{"gauge", given(at.gauge)}}, show_place);
  return context.ask("at", {{"words", at.words}, {"gauge", given(at.gauge)}}, show_place);
}

Action declare_at(CLI::App& app) {
  auto at = std::make_shared<At>();
  app.add_option("PLACE", at->words, "FEATURE [INDEX] [LEVEL] [AXIS], or with slashes")->expected(1, 4);
  app.add_option("--gauge", at->gauge, "The place of this gauge alone")->type_name("G");
  app.add_flag("--common", at->common, "The gauge shares the common place again");
  app.add_flag("--none", at->none, "No place: readings are held as suspect");
  return [at](Context& context) { return go(*at, context); };
}

Action declare_round(CLI::App& app) {
  auto words = std::make_shared<RoundWords>();
  app.add_option("FEATURE", words->features, "What to measure, in this order; none: all");
  app.add_option("--by", words->by, "feature after feature, or index after index")->check(one_of({"feature", "index"}));
  app.add_option("--from", words->from, "The index to begin with")->type_name("INDEX");
  app.add_flag("--again", words->again, "Also places that are measured");
  app.add_option("--gauge", words->gauge, "The round of this gauge alone")->type_name("G");
  return [words](Context& context) {
    const Json params = {{"features", words->features},
                         {"by", given(words->by)},
                         {"from", given(words->from)},
                         {"again", words->again},
                         {"gauge", given(words->gauge)}};
    return context.ask("round", params, show_place);
  };
}

Action declare_step(CLI::App& app, const char* method) {
  auto gauge = std::make_shared<std::string>();
  app.add_option("--gauge", *gauge, "In the round of this gauge")->type_name("G");
  return [gauge, method](Context& context) { return context.ask(method, {{"gauge", given(*gauge)}}, show_place); };
}

Action declare_next(CLI::App& app) {
  return declare_step(app, "next");
}

Action declare_back(CLI::App& app) {
  return declare_step(app, "back");
}

}  // namespace

std::vector<Command> place_commands() {
  return {
      {"at",
       "Choose the place of the next reading",
       {"tenth at bore 3 top thrust", "tenth at main_journal/2/front --gauge mic", "tenth at --common --gauge mic",
        "tenth at --none"},
       declare_at},
      {"round",
       "Be led from place to place, a reading at each",
       {"tenth round", "tenth round main_bearing main_journal --by index", "tenth round bore --from 3 --gauge bore"},
       declare_round},
      {"next", "Go to the next place of the round", {"tenth next"}, declare_next},
      {"back", "Go to the place before in the round", {"tenth back --gauge mic"}, declare_back},
  };
}

}  // namespace tenth::cli
