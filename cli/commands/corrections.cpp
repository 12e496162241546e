#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/lines.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string run, reason, gauge;
  std::vector<std::string> place;
};

std::string numbers(const Json& result) {
  std::string all;
  for (const auto& seq : result.value("seqs", Json::array())) all += (all.empty() ? "" : ", ") + seq.dump();
  return all;
}

void show_changed(Context& context, const Json& result, const std::string& what) {
  context.world.out << what << ' ' << numbers(result) << '\n';
  if (const auto place = result.find("place"); place != result.end() && place->is_object())
    context.world.out << place_line(context.ink, *place) << '\n';
}

void show_voided(Context& context, const Json& result) {
  show_changed(context, result, "x void      ");
}

void show_kept(Context& context, const Json& result) {
  show_changed(context, result, "+ kept      ");
}

void show_moved(Context& context, const Json& result) {
  context.world.out << "> moved      " << numbers(result) << " to " << joined(texts(result, "places")) << '\n';
}

void add_reason(CLI::App& app, Words& words) {
  app.add_option("--reason", words.reason, "Why; it is recorded")->required()->type_name("TEXT")->check(not_blank());
}

Result<Exit> correct(const std::string& method, const Words& words, Context& context, Context::Show show) {
  const auto run = parse_run(words.run);
  if (!run) return tl::unexpected(run.error());
  Json params = {{"first", run->first}, {"last", or_null(run->last)}, {"reason", words.reason}};
  if (!words.place.empty()) params["words"] = words.place;
  return context.ask(method, params, show);
}

Action declare_undo(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("--gauge", words->gauge, "The last reading of this gauge")->type_name("G");
  return [words](Context& context) { return context.ask("undo", {{"gauge", given(words->gauge)}}, show_voided); };
}

Action declare_void(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("SEQ", words->run, "The reading, or a run of them: SEQ..SEQ")->required();
  add_reason(app, *words);
  return [words](Context& context) { return correct("void", *words, context, show_voided); };
}

Action declare_keep(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("SEQ", words->run, "The reading, or a run of them: SEQ..SEQ")->required();
  add_reason(app, *words);
  return [words](Context& context) { return correct("keep", *words, context, show_kept); };
}

Action declare_move(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("SEQ", words->run, "The reading, or a run of them: SEQ..SEQ")->required();
  app.add_option("PLACE", words->place, "FEATURE [INDEX] [LEVEL] [AXIS], or with slashes")->required()->expected(1, 4);
  add_reason(app, *words);
  return [words](Context& context) { return correct("move", *words, context, show_moved); };
}

}  // namespace

std::vector<Command> correction_commands() {
  return {
      {"undo",
       "Void the last reading and measure its place again",
       {"tenth undo", "tenth undo --gauge mic"},
       declare_undo},
      {"void", "Say that readings must not count", {"tenth void 41 --reason 'dirt on the anvil'"}, declare_void},
      {"keep",
       "Say that suspect readings are right",
       {"tenth keep 41..43 --reason 'bored 0.5 over, see job card'"},
       declare_keep},
      {"move",
       "Lay readings to another place, a run along the round",
       {"tenth move 41..44 bore 4 top thrust --reason 'began at the wrong cylinder'"},
       declare_move},
  };
}

}  // namespace tenth::cli
