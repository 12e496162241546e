#include <pwd.h>
#include <unistd.h>

#include <chrono>
#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/engine_choice.hpp"
#include "cli/files.hpp"
#include "cli/ledger_copy.hpp"
#include "cli/words.hpp"
#include "schema/export/exports.hpp"
#include "schema/export/paper/papers.hpp"
#include "schema/json/time.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string engine, format, output, paper = "a4";
};

std::string now() {
  const auto since_1970 = std::chrono::system_clock::now().time_since_epoch();
  return rfc3339(std::chrono::duration_cast<std::chrono::microseconds>(since_1970).count());
}

/// Who makes the record: the operator in use, so that one ledger gives one record; else the caller's login.
std::string maker(const Bench& bench) {
  if (bench.operator_name) return *bench.operator_name;
  const auto* login = getpwuid(geteuid());  // NOLINT(concurrency-mt-unsafe): one thread
  return login == nullptr ? "unknown" : login->pw_name;
}

Result<std::string> made(const LedgerCopy& copy, const Words& words) {
  const auto engine = engine_of(copy.bench, words.engine);
  if (!engine) return tl::unexpected(engine.error());
  if (words.format == "csv") return csv(**engine);
  if (words.format == "html") return html(paper::build_record(copy.bench, **engine, copy.head));
  if (words.format == "pdf")
    return pdf(paper::build_record(copy.bench, **engine, copy.head),
               words.paper == "letter" ? paper::Sheet::letter : paper::Sheet::a4);
  return record(copy.rows, (*engine)->name, now(), maker(copy.bench));
}

Result<Exit> write_export(const Words& words, Context& context) {
  const auto copy = copy_ledger(context);
  if (!copy) return tl::unexpected(copy.error());
  const auto text = made(*copy, words);
  if (!text) return tl::unexpected(text.error());
  if (words.output.empty()) {
    context.world.out << *text << std::flush;
    return Exit::done;
  }
  if (const auto written = write_text(words.output, *text); !written) return tl::unexpected(written.error());
  if (context.options.json)
    context.print({{"file", words.output}, {"format", words.format}, {"bytes", text->size()}});
  else
    context.world.out << words.output << ": " << words.format << ", " << text->size() << " bytes\n";
  return Exit::done;
}

Action declare_export(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("--engine", words->engine, "This engine; else the one in use")->type_name("NAME");
  app.add_option("--format", words->format, "csv, json (the record), html or pdf (to read)")
      ->required()
      ->check(one_of({"csv", "json", "html", "pdf"}));
  app.add_option("--paper", words->paper, "The sheet of a pdf, a4 or letter; it prints on both")
      ->check(one_of({"a4", "letter"}))
      ->capture_default_str();
  app.add_option("--output", words->output, "The file to write; else standard output")->type_name("FILE");
  return [words](Context& context) { return write_export(*words, context); };
}

}  // namespace

std::vector<Command> export_commands() {
  return {{"export",
           "Hand over an engine's readings, record or page",
           {"tenth export --format html --output k31.html", "tenth export --engine K31 --format json --output k31.json",
            "tenth export --format csv > k31.csv"},
           declare_export}};
}

}  // namespace tenth::cli
