#include "cli/render/check.hpp"

#include <memory>

#include "cli/command.hpp"
#include "cli/render/budget.hpp"
#include "cli/words.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string engine;
  std::vector<std::string> budget;  ///< FIT INDEX
  bool strict = false, ready = false;
};

/// No where something is out; with `strict` also where something is doubtful or incomplete.
Exit answer(const Json& report, bool strict) {
  const Json verdict = report.at("verdict");
  if (verdict == "out") return Exit::no;
  return strict && (verdict == "doubtful" || verdict == "incomplete") ? Exit::no : Exit::done;
}

Result<Exit> show_terms(const Words& words, Context& context) {
  const Json params = {{"engine", given(words.engine)}, {"fit", words.budget.at(0)}, {"index", words.budget.at(1)}};
  return context.ask("budget", params, show_budget);
}

Result<Exit> check(const Words& words, Context& context) {
  if (!words.budget.empty()) return show_terms(words, context);
  const auto report =
      context.call("check", {{"engine", given(words.engine)}, {"ready", words.ready || !context.options.json}});
  if (!report) return tl::unexpected(report.error());
  if (context.options.json)
    context.print(words.ready ? report->at("ready") : *report);
  else if (words.ready)
    show_ready(context, report->at("ready"));
  else
    show_check(context, *report);
  return answer(*report, words.strict);
}

Action declare_check(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("--engine", words->engine, "This engine; else the one in use")->type_name("NAME");
  app.add_flag("--strict", words->strict, "Exit 1 also where doubtful or incomplete");
  app.add_flag("--ready", words->ready, "What can be done now");
  app.add_option("--budget", words->budget, "What the uncertainty of this clearance is made of")
      ->type_name("FIT INDEX")
      ->expected(2);
  return [words](Context& context) { return check(*words, context); };
}

}  // namespace

std::vector<Command> check_commands() {
  return {{"check",
           "Show each size and clearance with its verdict",
           {"tenth check", "tenth check --unit in", "tenth check --strict && tenth export --format html",
            "tenth check --ready", "tenth check --budget main_clearance 3"},
           declare_check}};
}

}  // namespace tenth::cli
