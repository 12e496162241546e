#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/chart.hpp"
#include "cli/render/place.hpp"
#include "cli/render/study.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"

namespace tenth::cli {
namespace {

struct Plan {
  std::string name, gauge, feature, tolerance;
  std::vector<std::string> operators, masters;
  std::int64_t parts = 10;
  std::optional<std::int64_t> trials;
  bool bias = false, linearity = false;
};

void show_planned(Context& context, const Json& planned) {
  context.world.out << "study " << text(planned, "study") << " asks for " << text(planned, "turns")
                    << " readings; the gauge walks them in a random order\n";
  show_place(context, planned.at("place"));
}

/// A study of what the gauge shows on masters, which needs no parts.
Result<Exit> plan_on_masters(const Plan& words, Context& context) {
  if (words.masters.empty())
    return wrong_words("masters", "a study of masters names their sizes", "add --masters 25,50,75");
  return context.ask("study.plan",
                     {{"name", words.name},
                      {"gauge", words.gauge},
                      {"what", words.linearity ? "linearity" : "bias"},
                      {"masters", words.masters},
                      {"trials", words.trials.value_or(10)},
                      {"unit", context.unit_name()}},
                     show_turn);
}

Result<Exit> plan(const Plan& words, Context& context) {
  if (words.bias || words.linearity) return plan_on_masters(words, context);
  if (words.feature.empty() || words.operators.empty() || !words.masters.empty())
    return wrong_words("study", "a study is of parts by operators, or of masters",
                       "give --feature and --operators, or --bias or --linearity and --masters");
  Json params = {{"name", words.name},         {"gauge", words.gauge},         {"feature", words.feature},
                 {"parts", words.parts},       {"operators", words.operators}, {"trials", words.trials.value_or(3)},
                 {"unit", context.unit_name()}};
  params["tolerance"] = given(words.tolerance);
  return context.ask("study.plan", params, show_planned);
}

Action declare_plan(CLI::App& app) {
  auto words = std::make_shared<Plan>();
  app.add_option("NAME", words->name, "What the study is called")->required()->check(not_blank());
  app.add_option("--gauge", words->gauge, "The gauge that is studied")->required();
  app.add_option("--feature", words->feature, "Its places are the parts");
  app.add_option("--parts", words->parts, "How many; 10 is usual")->type_name("N");
  app.add_option("--operators", words->operators, "Who measures, two or more: A,B")->delimiter(',')->type_name("A,B");
  app.add_option("--trials", words->trials, "How often each part or master; usual: 3, masters 10")->type_name("K");
  app.add_option("--tolerance", words->tolerance, "Width between the limits that it is to tell apart")->type_name("L");
  auto* const bias = app.add_flag("--bias", words->bias, "How far it reads off masters, instead");
  app.add_flag("--linearity", words->linearity, "Whether that differs along its range, instead")->excludes(bias);
  app.add_option("--masters", words->masters, "Sizes of the masters, for these two")
      ->delimiter(',')
      ->type_name("SIZE,..");
  return [words](Context& context) { return plan(*words, context); };
}

Action declare_study(CLI::App& app) {
  auto name = std::make_shared<std::string>();
  app.add_option("NAME", *name, "The study to show; none: their names");
  return [name](Context& context) {
    if (name->empty()) return context.ask("study.list", Json::object(), show_studies);
    return context.ask("study", {{"name", *name}}, show_study);
  };
}

/// A command about one gauge.
Action declare_of_gauge(CLI::App& app, const char* method, Context::Show show, const char* of = "The gauge") {
  auto gauge = std::make_shared<std::string>();
  app.add_option("GAUGE", *gauge, of)->required();
  return [gauge, method, show](Context& context) { return context.ask(method, {{"gauge", *gauge}}, show); };
}

constexpr const char* kOrStudy = "A study of masters, or a gauge: all its settings";

Action declare_bias(CLI::App& app) {
  return declare_of_gauge(app, "study.bias", show_bias, kOrStudy);
}
Action declare_linearity(CLI::App& app) {
  return declare_of_gauge(app, "study.linearity", show_linearity, kOrStudy);
}
Action declare_charts(CLI::App& app) {
  return declare_of_gauge(app, "charts", show_charts);
}

}  // namespace

std::vector<Command> study_commands() {
  return {{"study", "What a study says of a gauge", {"tenth study", "tenth study mic-2026"}, declare_study},
          {"study plan",
           "Parts by operators by trials, in random order",
           {"tenth study plan mic-2026 --gauge mic --feature main_journal --operators ann,bo --tolerance 0.02",
            "tenth study plan mic-range --gauge mic --linearity --masters 25,50,75"},
           declare_plan},
          {"study bias",
           "How far a gauge reads off its masters",
           {"tenth study bias mic", "tenth study bias mic-range"},
           declare_bias},
          {"study linearity", "Whether that differs along its range", {"tenth study linearity mic"}, declare_linearity},
          {"charts", "How steady a gauge is on its master", {"tenth charts bore-gauge"}, declare_charts}};
}

}  // namespace tenth::cli
