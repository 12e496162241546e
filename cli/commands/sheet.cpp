#include <algorithm>
#include <memory>

#include "cli/command.hpp"
#include "cli/engine_choice.hpp"
#include "cli/hand_over.hpp"
#include "cli/ledger_copy.hpp"
#include "schema/export/paper/papers.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::vector<std::string> features;
  std::string engine;
  Output output;
};

Result<std::vector<const Feature*>> features_of(const Spec& spec, const std::vector<std::string>& words) {
  std::vector<const Feature*> features;
  for (const std::string& word : words) {
    TENTH_TRY(const Feature* const feature, find_feature(spec, word));
    if (feature->kind == Kind::check)
      return refuse("no_part", feature->name + " is a check: there is nothing to work on",
                    "name the features that the part is measured as");
    if (std::ranges::find(features, feature) == features.end()) features.push_back(feature);
  }
  return features;
}

Result<Exit> write_sheet(const Words& words, Context& context) {
  TENTH_TRY(const LedgerCopy copy, copy_ledger(context));
  TENTH_TRY(const Engine* const engine, engine_of(copy.bench, words.engine));
  TENTH_TRY(const std::vector<const Feature*> features, features_of(*engine->spec, words.features));
  const paper::Paper sheet = paper::shop_sheet(copy.bench, *engine, features, copy.head);
  const bool as_pdf = words.output.is_pdf();
  return hand_over(context, words.output, as_pdf ? "pdf" : "html", laid_out(context, sheet, as_pdf, words.output));
}

Action declare_sheet(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("FEATURE", words->features, "What is to be worked on")->required();
  app.add_option("--engine", words->engine, "This engine; else the one in use")->type_name("NAME");
  declare_output(app, words->output);
  return [words](Context& context) { return write_sheet(*words, context); };
}

}  // namespace

std::vector<Command> sheet_commands() {
  return {{"sheet",
           "The sheet that goes with a part to the machine shop",
           {"tenth sheet main_journal crankpin --output crank.pdf", "tenth sheet bore > block.html"},
           declare_sheet}};
}

}  // namespace tenth::cli
