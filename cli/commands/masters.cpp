#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/gauge.hpp"
#include "cli/render/mark.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"
#include "rules/joined.hpp"
#include "rules/master_name.hpp"
#include "rules/nearest.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string gauge, in, correct, reason;
  std::vector<std::string> master;
};

struct Added {
  std::string name, certificate, due, uncertainty;
  std::vector<std::string> size;
};

void show_waiting(Context& context, const Json& answer) {
  const Unit unit = context.unit_for(answer.value("unit", Json()));
  auto& out = context.world.out;
  out << "> press " << text(answer, "gauge") << " on its master of " << master_text(answer, unit) << " within "
      << text(answer, "within_s") << " s\n";
  if (answer.value("overdue", false))
    out << "! the certificate of " << text(answer, "master") << " is past its due day\n";
}

void show_corrected(Context& context, const Json& answer) {
  const auto readings = answer.value("seqs", Json::array()).size();
  context.world.out << "+ setting " << text(answer, "setting") << " of " << text(answer, "gauge") << " was made on "
                    << with_unit(length(answer, "master_mm"), context.unit_for(answer.value("unit", Json()))) << "; "
                    << readings << (readings == 1 ? " reading follows\n" : " readings follow\n");
}

void show_master(Context& context, const Json& master) {
  const Unit unit = context.unit_for(master.value("unit", Json()));
  const bool overdue = master.value("overdue", false);
  std::string line = inked(context.ink, overdue ? Mark{"!", "overdue", Tone::look} : Mark{"+", "master", Tone::good}) +
                     text(master, "name") + ", " + with_unit(length(master, "size_mm"), unit);
  if (const auto u = length(master, "uncertainty_mm")) line += ", uncertainty " + with_unit(*u, unit);
  if (const auto certificate = text(master, "certificate"); !certificate.empty())
    line += ", certificate " + certificate;
  if (const auto due = text(master, "due"); !due.empty()) line += ", due " + due;
  context.world.out << line << '\n';
}

void show_masters(Context& context, const Json& masters) {
  if (masters.empty()) context.world.out << "no master yet; add one with 'tenth masters add'\n";
  for (const auto& master : masters) show_master(context, master);
}

void show_dropped(Context& context, const Json& answer) {
  context.world.out << "master " << text(answer, "name") << " dropped; what was set on it stays\n";
}

/// A size, or a name as it was typed.
Result<std::string> name_or_size(const std::vector<std::string>& words, std::optional<Unit> bare) {
  const std::string typed = joined(words, " ");
  return typed.empty() || can_name_master(typed) ? Result<std::string>(typed) : length_text(words, bare);
}

/// With --correct SEQ all words are the size.
Result<Exit> correct(const Words& words, Context& context) {
  const auto seq = parse_run(words.correct);
  if (!seq || seq->last)
    return wrong_words("seq", quoted(words.correct) + " is no number of a setting", "write a number such as 12");
  if (!words.in.empty())
    return wrong_words("master", "--in does not go with --correct", "give the size that the master had");
  if (words.reason.empty()) return wrong_words("reason", "a change to what stands needs a reason", "add --reason TEXT");
  std::vector<std::string> size_words = {words.gauge};
  size_words.insert(size_words.end(), words.master.begin(), words.master.end());
  const auto size = length_text(size_words, context.options.unit);
  if (!size) return tl::unexpected(size.error());
  const Json params = {
      {"setting", seq->first}, {"size", *size}, {"reason", words.reason}, {"unit", context.unit_name()}};
  return context.ask("master.correct", params, show_corrected);
}

Result<Exit> set(const Words& words, Context& context) {
  if (!words.reason.empty()) return wrong_words("reason", "--reason goes with --correct", "leave it out");
  const auto master = name_or_size(words.master, context.options.unit);
  if (!master) return tl::unexpected(master.error());
  if (master->empty() == words.in.empty())
    return wrong_words("master", "a gauge is set on one master",
                       "write tenth master GAUGE NAME, GAUGE SIZE, or GAUGE --in GAUGE2");
  const Json params = {
      {"gauge", words.gauge}, {"size", given(*master)}, {"in", given(words.in)}, {"unit", context.unit_name()}};
  return context.ask("master", params, show_waiting);
}

Action declare_master(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("GAUGE", words->gauge, "The gauge to set")->required();
  app.add_option("MASTER", words->master, "The name or the size of the master")->expected(1, 2);
  app.add_option("--in", words->in, "The master is this gauge, clamped at its last reading")->type_name("GAUGE2");
  app.add_option("--correct", words->correct, "That setting's master was SIZE")->type_name("SEQ");
  app.add_option("--reason", words->reason, "Why; it is recorded")->type_name("TEXT")->check(not_blank());
  return [words](Context& context) { return words->correct.empty() ? set(*words, context) : correct(*words, context); };
}

Action declare_recheck(CLI::App& app) {
  auto words = std::make_shared<std::string>();
  app.add_option("GAUGE", *words, "The gauge to check")->required();
  return [words](Context& context) { return context.ask("recheck", {{"gauge", *words}}, show_waiting); };
}

Action declare_add(CLI::App& app) {
  auto words = std::make_shared<Added>();
  app.add_option("NAME", words->name, "What you call it")->required()->check(not_blank());
  app.add_option("SIZE", words->size, "The size on its certificate")->required()->expected(1, 2);
  app.add_option("--certificate", words->certificate, "The number of its certificate")->type_name("TEXT");
  app.add_option("--due", words->due, "The last day on which that holds")->type_name("DATE");
  app.add_option("--uncertainty", words->uncertainty, "Expanded uncertainty (k = 2) of its size")->type_name("L");
  return [words](Context& context) -> Result<Exit> {
    const auto size = length_text(words->size, context.options.unit);
    if (!size) return tl::unexpected(size.error());
    Json params = {{"name", words->name},
                   {"size", *size},
                   {"certificate", given(words->certificate)},
                   {"due", given(words->due)},
                   {"uncertainty", given(words->uncertainty)},
                   {"unit", context.unit_name()}};
    return context.ask("masters.add", params, show_master);
  };
}

Action declare_list(CLI::App&) {
  return [](Context& context) { return context.ask("masters.list", Json::object(), show_masters); };
}

Action declare_drop(CLI::App& app) {
  auto name = std::make_shared<std::string>();
  app.add_option("NAME", *name, "The master")->required();
  return [name](Context& context) { return context.ask("masters.drop", {{"name", *name}}, show_dropped); };
}

}  // namespace

std::vector<Command> master_commands() {
  return {
      {"master",
       "Set a gauge on a master, by its name, its size, or in another gauge",
       {"tenth master bore 83.000 --unit mm", "tenth master bore R83", "tenth master bore --in mic",
        "tenth master --correct 41 83.010 mm --reason 'it was the other ring'"},
       declare_master},
      {"recheck", "Check a gauge on its master; the zero stays", {"tenth recheck bore"}, declare_recheck},
      {"masters add",
       "Add a ring, a block or a rod that gauges are set on",
       {"tenth masters add R83 83.0012 mm --certificate 'C-1207' --due 2027-03-01 --uncertainty 0.0008mm"},
       declare_add},
      {"masters list", "Show all masters", {"tenth masters list"}, declare_list},
      {"masters drop", "Let go of a master", {"tenth masters drop R83"}, declare_drop},
  };
}

}  // namespace tenth::cli
