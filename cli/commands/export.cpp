#include <pwd.h>
#include <unistd.h>

#include <chrono>
#include <memory>

#include "cli/command.hpp"
#include "cli/engine_choice.hpp"
#include "cli/hand_over.hpp"
#include "cli/ledger_copy.hpp"
#include "cli/words.hpp"
#include "schema/export/exports.hpp"
#include "schema/export/paper/papers.hpp"
#include "schema/json/time.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string engine, format;
  Output output;
};

std::string now() {
  const auto since_1970 = std::chrono::system_clock::now().time_since_epoch();
  return rfc3339(std::chrono::duration_cast<std::chrono::microseconds>(since_1970).count());
}

/// Who makes the record: the operator in use, so that one ledger gives one record; else the caller's login.
std::string maker(const Bench& bench) {
  if (bench.operator_name) return *bench.operator_name;
  const auto* login = getpwuid(geteuid());  // one thread
  return login == nullptr ? "unknown" : login->pw_name;
}

Result<std::string> made(const LedgerCopy& copy, const Words& words, Context& context) {
  TENTH_TRY(const Engine* const engine, engine_of(copy.bench, words.engine));
  if (words.format == "csv") return csv(*engine);
  if (words.format == "json") return record(copy.rows, engine->name, now(), maker(copy.bench));
  if (words.format == "worksheet")
    return laid_out(context, paper::worksheet(copy.bench, *engine, copy.head), words.output.is_pdf(), words.output);
  return laid_out(context, paper::build_record(copy.bench, *engine, copy.head), words.format == "pdf", words.output);
}

Result<Exit> write_export(const Words& words, Context& context) {
  TENTH_TRY(const LedgerCopy copy, copy_ledger(context));
  TENTH_TRY(const std::string text, made(copy, words, context));
  return hand_over(context, words.output, words.format, text);
}

Action declare_export(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("--engine", words->engine, "This engine; else the one in use")->type_name("NAME");
  app.add_option("--format", words->format, "csv, json (record), html, pdf or worksheet (blank)")
      ->required()
      ->check(one_of({"csv", "json", "html", "pdf", "worksheet"}));
  declare_output(app, words->output);
  return [words](Context& context) { return write_export(*words, context); };
}

}  // namespace

std::vector<Command> export_commands() {
  return {{"export",
           "Hand over an engine's readings or record; or a worksheet to fill in",
           {"tenth export --format pdf --output k31.pdf", "tenth export --engine K31 --format json --output k31.json",
            "tenth export --format csv > k31.csv", "tenth export --format worksheet --output blank.pdf"},
           declare_export}};
}

}  // namespace tenth::cli
