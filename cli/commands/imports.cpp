#include <algorithm>
#include <istream>
#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/render/mark.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"
#include "schema/json/escape.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string file, claimed_by;
  bool preview = false;
};

constexpr std::size_t kMostBytes = 512 * 1024;  // a request has room for it, escaped

Result<Json> params_of(const Words& words, const Context& context) {
  TENTH_TRY(const std::string text, read_text(words.file, kMostBytes));
  if (const std::string whole = valid_utf8(text); whole != text) {
    const auto bad = std::mismatch(text.begin(), text.end(), whole.begin(), whole.end()).first;
    const auto line = 1 + std::count(text.begin(), bad, '\n');
    return refuse("import", words.file + ":" + std::to_string(line) + ": that is no text in UTF-8",
                  "save the table as CSV in UTF-8");
  }
  if (text.empty())
    return refuse("import", words.file + ":1: there is nothing in it",
                  "the first line names the columns: feature,index,level,axis,value,unit");
  return Json{
      {"file", words.file}, {"text", text}, {"claimed_by", given(words.claimed_by)}, {"unit", context.unit_name()}};
}

void show_rows(Context& context, const Json& table, std::ostream& out) {
  for (const auto& row : table.at("rows")) {
    const Unit unit = context.options.unit.value_or(text(row, "unit") == "in" ? Unit::in : Unit::mm);
    out << right(text(row, "line"), 5) << "  " << left(text(row, "place"), 40) << "  "
        << with_unit(length(row, "size_mm"), unit) << '\n';
  }
}

void show_imported(Context& context, const Json& table) {
  auto& out = context.world.out;
  show_rows(context, table, out);
  if (table.at("import").is_null()) {
    out << "nothing is stored: this is what the table says; without --preview it is taken\n";
    return;
  }
  out << inked(context.ink, {"*", "imported", Tone::plain}) << table.at("rows").size() << " rows of "
      << text(table, "file") << " into " << text(table, "engine") << ": " << text(table, "kept") << " kept, "
      << text(table, "suspect") << " suspect, " << text(table, "claimed") << " claimed"
      << context.ink(Tone::quiet, "  #" + text(table, "import")) << '\n';
}

/// A person at a terminal sees the rows and is asked; a script knows what it does.
Result<bool> agreed(Json params, Context& context) {
  if (!context.world.in_is_terminal || context.options.json) return true;
  params["preview"] = true;
  TENTH_TRY(const Json table, context.call("import", params));
  show_rows(context, table, context.world.err);
  context.world.err << "Take these " << table.at("rows").size() << " rows into engine " << text(table, "engine")
                    << "? [y/N] " << std::flush;
  std::string line;
  std::getline(context.world.in, line);
  return line == "y" || line == "Y" || line == "yes";
}

Result<Exit> import_file(const Words& words, Context& context) {
  TENTH_TRY(Json params, params_of(words, context));
  params["preview"] = words.preview;
  if (!words.preview) {
    TENTH_TRY(const bool yes, agreed(params, context));
    if (!yes) return refuse("not_agreed", "nothing was imported", "answer y");
  }
  return context.ask("import", params, show_imported);
}

Action declare_import(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("FILE", words->file,
                 "CSV; its first line names the columns, of feature,\nindex, level, axis, value, unit, time, "
                 "operator,\ngauge, note; feature and value must be there")
      ->required();
  app.add_option("--claimed-by", words->claimed_by, "Another shop's figures: shown, never judged")
      ->check(not_blank())
      ->type_name("TEXT");
  app.add_flag("--preview", words->preview, "Show what the table says, and store nothing");
  return [words](Context& context) { return import_file(*words, context); };
}

}  // namespace

std::vector<Command> import_commands() {
  return {{"import",
           "Take in a table of sizes: all rows, or none",
           {"tenth import old-sheet.csv --preview", "tenth import grinder.csv --claimed-by 'the crank grinder'"},
           declare_import}};
}

}  // namespace tenth::cli
