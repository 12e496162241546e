#include "cli/run.hpp"

#include <algorithm>
#include <cctype>
#include <map>
#include <ostream>

#include "cli/command.hpp"
#include "cli/explain.hpp"
#include "cli/help_format.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"
#include "rules/nearest.hpp"
#include "schema/json/escape.hpp"

namespace tenth::cli {
namespace {

/// The options of every command as they are written, and the actions behind the commands.
struct Program {
  CLI::App app{"Measure an engine: asks the daemon tenthd, and prints."};
  std::string socket, unit;
  bool json = false;
  std::map<const CLI::App*, Action> actions;
};

std::string group_help(const std::string& name) {
  static const std::map<std::string, std::string> about = {{"engine", "Engines to be built"},
                                                           {"gauge", "Gauges and the ports they hang on"},
                                                           {"masters", "Masters that gauges are set on"},
                                                           {"operator", "Who measures"},
                                                           {"pedal", "Foot pedals and what they do"}};
  return about.at(name);
}

std::string footer(const std::vector<std::string>& examples) {
  std::string text = "Examples:";
  for (const auto& example : examples) text += "\n  " + example;
  return text;
}

/// The parent of "engine add" is the group "engine", made when it is first needed.
CLI::App& parent_of(Program& program, const std::string& name) {
  const auto blank = name.find(' ');
  if (blank == std::string::npos) return program.app;
  const std::string group = name.substr(0, blank);
  const auto found = program.app.get_subcommands([&group](const CLI::App* app) { return app->get_name() == group; });
  if (!found.empty()) return *found.front();
  auto* made = program.app.add_subcommand(group, group_help(group));
  made->require_subcommand(1);
  made->group("Commands");
  made->footer("tenth " + group + " COMMAND --help has examples.");
  return *made;
}

void declare(Program& program, const Command& command) {
  CLI::App& parent = parent_of(program, command.name);
  auto* app = parent.add_subcommand(command.name.substr(command.name.find(' ') + 1), command.help);
  app->group("Commands");
  app->footer(footer(command.examples) + "\n\nEvery command also takes --socket PATH, --unit mm|in and --json.");
  program.actions[app] = command.declare(*app);
}

void declare_all(Program& program) {
  constexpr std::size_t kOptionColumns = 26;
  program.app.name("tenth");
  program.app.formatter(std::make_shared<HelpFormat>());
  program.app.get_formatter()->label("SUBCOMMAND", "COMMAND");
  program.app.get_formatter()->column_width(kOptionColumns);
  program.app.set_help_flag("-h,--help", "Print this help and exit");
  program.app.set_version_flag("--version", std::string("tenth " TENTH_VERSION));
  program.app.fallthrough();  // inherited: the options below stand before and after the command
  program.app.require_subcommand(1);
  program.app.add_option("--socket", program.socket, "The daemon's socket")->type_name("PATH");
  program.app.add_option("--unit", program.unit, "Unit of bare numbers, and to write in: mm or in")
      ->type_name("UNIT")
      ->check(one_of({"mm", "in"}));
  program.app.add_flag("--json", program.json, "Print one JSON document");
  program.app.footer(footer({"tenth engine add K31 --spec k31.toml",
                             "tenth gauge add bore --port /dev/ttyUSB0 "
                             "--profile line --reads deviation --measures inside --unit mm",
                             "tenth round", "tenth check"}));
  for (const auto& command : all_commands()) declare(program, command);
}

/// A minus before a point is a number too, but the parser sees one only before a digit. The blank is taken off again
/// where lengths are read.
void guard_numbers(std::vector<std::string>& words) {
  for (auto& word : words) {
    const bool point = word.size() > 2 && word[0] == '-' && (word[1] == '.' || word[1] == ',');
    if (point && std::isdigit(static_cast<unsigned char>(word[2])) != 0) word.insert(0, 1, ' ');
  }
}

int fail(const Refusal& refusal, bool json, World& world) {
  if (json) {
    const Json error = {{"code", valid_utf8(refusal.code)},
                        {"message", valid_utf8(refusal.message)},
                        {"do", valid_utf8(refusal.remedy)}};
    world.err << canonical(error) << '\n';
  } else {
    world.err << "tenth: " << printable(refusal.message);
    if (!refusal.remedy.empty()) world.err << "; " << printable(refusal.remedy);
    world.err << '\n';
  }
  world.err.flush();
  return static_cast<int>(refusal.exit);
}

/// The command that the words chose: the deepest one.
const CLI::App* chosen(const CLI::App& app) {
  const auto below = app.get_subcommands();
  return below.empty() ? &app : chosen(*below.back());
}

tl::unexpected<Refusal> bad_answer(const std::exception& error) {
  return tl::unexpected(Refusal{Exit::unreachable, "bad_answer",
                                "the daemon's answer is not what was asked for: " + std::string(error.what()),
                                "see that tenth and tenthd come from the same installation"});
}

Result<Exit> act(const Program& program, Context& context) {
  try {
    return program.actions.at(chosen(program.app))(context);
  } catch (const Json::exception& error) {
    return bad_answer(error);
  } catch (const BadAnswer& error) {
    return bad_answer(error);
  }
}

}  // namespace

int run(std::vector<std::string> words, World& world) {
  Program program;
  declare_all(program);
  guard_numbers(words);
  const bool json_asked = std::find(words.begin(), words.end(), "--json") != words.end();
  try {
    std::reverse(words.begin(), words.end());  // as the parser takes them
    program.app.parse(words);
  } catch (const CLI::CallForVersion& version) {
    world.out << version.what() << '\n' << std::flush;
    return 0;
  } catch (const CLI::CallForHelp&) {
    world.out << program.app.help() << std::flush;
    return 0;
  } catch (const CLI::ParseError& error) {
    return fail(explain(program.app, error), json_asked, world);
  }
  Options options{program.socket, std::nullopt, program.json};
  if (!program.unit.empty()) options.unit = parse_unit(program.unit).value();
  Context context(world, options);
  const auto exit = act(program, context);
  if (!exit) return fail(exit.error(), program.json, world);
  if (!world.out.flush())
    return fail({Exit::refused, "output", "the answer could not be written", "see that the disk is not full"},
                program.json, world);
  return static_cast<int>(*exit);
}

}  // namespace tenth::cli
