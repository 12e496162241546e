#include "cli/explain.hpp"

#include <algorithm>
#include <cctype>
#include <string>
#include <vector>

#include "rules/joined.hpp"
#include "rules/nearest.hpp"

namespace tenth::cli {
namespace {

/// The commands that the words went through, the program itself first.
std::vector<const CLI::App*> path_of(const CLI::App& program) {
  std::vector<const CLI::App*> path = {&program};
  while (!path.back()->get_subcommands().empty()) path.push_back(path.back()->get_subcommands().back());
  return path;
}

std::string spelled(const std::vector<const CLI::App*>& path) {
  std::string all;
  for (const auto* app : path) all += (all.empty() ? "" : " ") + app->get_name();
  return all;
}

std::vector<std::string> options_of(const std::vector<const CLI::App*>& path) {
  std::vector<std::string> names;
  for (const auto* app : path)
    for (const auto* option : app->get_options())
      for (const auto& name : option->get_lnames()) names.push_back("--" + name);
  return names;
}

std::vector<std::string> commands_of(const CLI::App& app) {
  std::vector<std::string> names;
  for (const auto* command : app.get_subcommands([](const CLI::App*) { return true; }))
    names.push_back(command->get_name());
  return names;
}

Refusal wrong(std::string code, std::string message, std::string remedy) {
  return {Exit::words, std::move(code), std::move(message), std::move(remedy)};
}

Refusal unknown_command(const std::string& word, const std::vector<const CLI::App*>& path) {
  const auto commands = commands_of(*path.back());
  const auto near = nearest(word, commands);
  const std::string what = "unknown command " + quoted(path.size() > 1 ? path.back()->get_name() + " " + word : word);
  if (!near.empty()) return wrong("unknown_command", what, "did you mean '" + spelled(path) + " " + near + "'?");
  return wrong("unknown_command", what, "commands are: " + joined(commands));
}

Refusal unknown_option(const std::string& word, const std::vector<const CLI::App*>& path) {
  const std::string name = word.substr(0, word.find('='));
  const auto near = nearest(name, options_of(path));
  const std::string what = "unknown option " + quoted(name);
  if (!near.empty()) return wrong("unknown_option", what, "did you mean " + near + "?");
  return wrong("unknown_option", what, "see '" + spelled(path) + " --help'");
}

/// The parser's "VALUE: At Most 2 required but received 4" in words.
std::string miscounted(const std::string& told) {
  static const std::string kBut = " required but received ";
  const auto colon = told.find(": "), but = told.find(kBut);
  if (colon == std::string::npos || but == std::string::npos || but < colon) return told;
  std::string asked = told.substr(colon + 2, but - colon - 2);
  std::transform(asked.begin(), asked.end(), asked.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return told.substr(0, colon) + " takes " + asked + (asked.ends_with(" 1") ? " word, not " : " words, not ") +
         told.substr(but + kBut.size());
}

}  // namespace

Refusal explain(const CLI::App& program, const CLI::ParseError& error) {
  const auto path = path_of(program);
  const std::vector<std::string> extra = program.remaining(true);
  const bool group = path.back()->get_require_subcommand_min() > 0;
  const auto option = std::find_if(extra.begin(), extra.end(), [](const auto& word) { return word.starts_with('-'); });
  if (option != extra.end() && *option == "--")
    return wrong("words", "what stands behind -- is no option, and too many words", "write the options before --");
  if (group && !extra.empty() && option != extra.begin()) return unknown_command(extra.front(), path);
  if (option != extra.end()) return unknown_option(*option, path);
  if (group)
    return wrong("no_command", "'" + spelled(path) + "' needs a command",
                 "use one of: " + joined(commands_of(*path.back())));
  const std::string see = "see '" + spelled(path) + " --help'";
  if (!extra.empty())
    return wrong("words", "too many words: " + tenth::quoted(extra.front()) + " means nothing here", see);
  return wrong("words", miscounted(error.what()), see);
}

}  // namespace tenth::cli
