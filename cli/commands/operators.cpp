#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string name, user, gauge;
};

void show_operator(Context& context, const Json& who) {
  const auto user = text(who, "user");
  context.world.out << "operator " << text(who, "operator") << (user.empty() ? "" : " (login " + user + ")") << " added"
                    << (who.value("in_use", Json()) == true ? "; measures from now on" : "") << '\n';
}

void show_used(Context& context, const Json& who) {
  const auto gauge = text(who, "gauge");
  context.world.out << "operator " << text(who, "operator") << " measures from now on"
                    << (gauge.empty() ? "" : " with " + gauge) << '\n';
}

void show_list(Context& context, const Json& operators) {
  if (operators.empty()) context.world.out << "no operator yet; add one with 'tenth operator add NAME'\n";
  for (const auto& who : operators) {
    const bool used = who.value("in_use", Json()) == true;
    const auto user = text(who, "user");
    const auto gauges = joined(texts(who, "gauges"));
    context.world.out << (used ? "> " : "  ") << left(text(who, "operator"), 16)
                      << (user.empty() ? "" : "  login " + user) << (gauges.empty() ? "" : "  with " + gauges)
                      << (used ? "  (measures now)" : "") << '\n';
  }
}

Action declare_add(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("NAME", words->name, "The operator's name")->required()->check(not_blank());
  app.add_option("--user", words->user, "The login that is this operator")->type_name("LOGIN");
  return [words](Context& context) {
    return context.ask("operator.add", {{"name", words->name}, {"user", given(words->user)}}, show_operator);
  };
}

Action declare_use(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("NAME", words->name, "Who measures from now on")->required();
  app.add_option("--gauge", words->gauge, "With this gauge only")->type_name("G");
  return [words](Context& context) {
    return context.ask("operator.use", {{"name", words->name}, {"gauge", given(words->gauge)}}, show_used);
  };
}

Action declare_list(CLI::App&) {
  return [](Context& context) { return context.ask("operator.list", Json::object(), show_list); };
}

}  // namespace

std::vector<Command> operator_commands() {
  return {
      {"operator add", "Add somebody who measures", {"tenth operator add Ada --user ada"}, declare_add},
      {"operator use",
       "Say who measures from now on",
       {"tenth operator use Ada", "tenth operator use Ben --gauge mic"},
       declare_use},
      {"operator list", "Show who measures", {"tenth operator list"}, declare_list},
  };
}

}  // namespace tenth::cli
