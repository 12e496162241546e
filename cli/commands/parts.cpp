#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/lines.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

struct Decision {
  std::string text, remedy, reason;
};

struct Part {
  std::vector<std::string> words;  ///< FEATURE [INDEX] PART
  std::string half;
};

struct Mates {
  std::string fit, index, outside_index;
};

void show_decision(Context& context, const Json& decision) {
  context.world.out << decision_line(context.ink, decision) << '\n';
}

Action declare_decide(CLI::App& app) {
  auto words = std::make_shared<Decision>();
  app.add_option("TEXT", words->text, "What is to be done")->required()->check(not_blank());
  app.add_option("--remedy", words->remedy, "The remedy chosen, as 'tenth remedies' has it")->type_name("ID");
  app.add_option("--reason", words->reason, "Why; it is recorded")->required()->type_name("TEXT")->check(not_blank());
  return [words](Context& context) {
    const Json params = {{"text", words->text}, {"remedy", given(words->remedy)}, {"reason", words->reason}};
    return context.ask("decide", params, show_decision);
  };
}

void show_install(Context& context, const Json& install) {
  context.world.out << install_line(context.ink, install) << '\n'
                    << "  " << wrapped("to measure again: " + joined(texts(install, "places")), 4, 2);
}

Action declare_install(CLI::App& app) {
  auto part = std::make_shared<Part>();
  app.add_option("WORDS", part->words, "FEATURE [INDEX] PART: by the shop's own name")->required()->expected(2, 3);
  app.add_option("--half", part->half, "Which half of a bearing it is")->check(one_of({"upper", "lower"}));
  return [part](Context& context) {
    const auto& words = part->words;
    const Json params = {{"feature", words.front()},
                         {"index", words.size() == 3 ? Json(words[1]) : Json(nullptr)},
                         {"part", words.back()},
                         {"half", given(part->half)}};
    return context.ask("install", params, show_install);
  };
}

void show_mate(Context& context, const Json& mates) {
  context.world.out << mate_line(context.ink, mates) << '\n';
}

Action declare_mate(CLI::App& app) {
  auto mates = std::make_shared<Mates>();
  app.add_option("FIT", mates->fit, "The fit that the two make")->required();
  app.add_option("INDEX", mates->index, "The index of the inside part")->required();
  app.add_option("OUTSIDE_INDEX", mates->outside_index, "The index of the outside part that goes into it")->required();
  return [mates](Context& context) {
    const Json params = {{"fit", mates->fit}, {"index", mates->index}, {"outside_index", mates->outside_index}};
    return context.ask("mate", params, show_mate);
  };
}

}  // namespace

std::vector<Command> part_commands() {
  return {
      {"install",
       "Say that another part sits there now: that index is measured anew",
       {"tenth install main_bearing 3 std-coated-lower --half lower", "tenth install piston 2 piston-9"},
       declare_install},
      {"mate",
       "Say which parts go together from now on",
       {"tenth mate piston_clearance 3 5", "tenth mate rod_clearance L1 2"},
       declare_mate},
      {"decide",
       "Keep what was chosen for the engine, and why; it changes nothing by itself",
       {"tenth decide 'main 4: softer shells from the shelf' --remedy r1 --reason 'free, and within limits'"},
       declare_decide},
  };
}

}  // namespace tenth::cli
