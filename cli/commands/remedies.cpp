#include "cli/render/remedies.hpp"

#include <memory>

#include "cli/command.hpp"
#include "cli/engine_choice.hpp"
#include "cli/files.hpp"
#include "cli/ledger_copy.hpp"
#include "cli/words.hpp"
#include "rules/couples.hpp"
#include "rules/remedies/what_if.hpp"
#include "rules/ring.hpp"
#include "schema/stock/stock_file.hpp"
#include "schema/wire/remedies_json.hpp"
#include "schema/wire/views.hpp"

namespace tenth::cli {
namespace {

// Computed here from a copy of the ledger: a search may take a second, and the daemon has gauges to listen to.

constexpr std::size_t kMostStockBytes = 1 << 20;

/// A stock file that was read for an engine; none where the caller named none.
struct Shelf {
  std::optional<Stock> stock;
  std::string sha256;
  const Stock* get() const { return stock ? &*stock : nullptr; }
};

Result<Shelf> shelf_of(const std::string& file, const Spec& spec) {
  if (file.empty()) return Shelf{};
  TENTH_TRY(const std::string text, read_text(file, kMostStockBytes));
  TENTH_TRY(Stock stock, parse_stock(text, file, spec));
  return Shelf{std::move(stock), hex(sha256(text))};
}

struct Words {
  std::string stock, engine;
};

Result<Exit> show(const Words& words, Context& context) {
  TENTH_TRY(const LedgerCopy copy, copy_ledger(context));
  TENTH_TRY(const Engine* const engine, engine_of(copy.bench, words.engine));
  TENTH_TRY(const Shelf shelf, shelf_of(words.stock, *engine->spec));
  const RemedyList list = remedies(*engine, shelf.get());
  const Json json =
      remedies_json({engine->name, copy.head.seq, shelf.stock ? shelf.stock->title : "", shelf.sha256}, list);
  if (context.options.json)
    context.print(json);
  else
    show_remedies(context, json, engine->spec->unit);
  return list.suffices ? Exit::done : Exit::no;
}

Action declare_remedies(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("--stock", words->stock, "What lies on the shelf and what may be asked for")->type_name("FILE");
  app.add_option("--engine", words->engine, "This engine; else the one in use")->type_name("NAME");
  return [words](Context& context) { return show(*words, context); };
}

struct Suppose {
  std::string fit, index, inside, outside, temperature, bore, stock, engine;
  std::vector<std::string> shells;
};

Result<Supposed> supposed(const Suppose& words, Unit unit) {
  Supposed all;
  if (!words.inside.empty()) {
    TENTH_TRY(all.inside, parse_length(words.inside, unit));
  }
  if (!words.outside.empty()) {
    TENTH_TRY(all.outside, parse_length(words.outside, unit));
  }
  if (!words.temperature.empty()) {
    TENTH_TRY(all.temperature, parse_temperature(words.temperature));
  }
  if (!words.shells.empty()) all.shells = {words.shells.at(0), words.shells.at(1)};
  if (!all.inside && !all.outside && !all.temperature && !all.shells)
    return wrong_words("what", "nothing is supposed", "add --inside, --outside, --shells or --temperature");
  return all;
}

/// A ring in another bore: no fit but a gap, which grows with its bore.
Result<Exit> suppose_ring(const Suppose& words, Context& context) {
  TENTH_TRY(const LedgerCopy copy, copy_ledger(context));
  TENTH_TRY(const Engine* const engine, engine_of(copy.bench, words.engine));
  TENTH_TRY(const Feature* const feature, find_feature(*engine->spec, words.fit));
  TENTH_TRY(const int index, find_index(*feature, words.index));
  TENTH_TRY(const int other, find_index(*feature, words.bore));
  TENTH_TRY(const MovedRing moved, ring_in_bore(*engine, *feature, index, other));
  const Json json = {{"engine", engine->name},
                     {"seq", copy.head.seq},
                     {"now", feature_json(moved.now)},
                     {"would", feature_json(moved.would)},
                     {"bore_now_mm", mm(moved.bore_now)},
                     {"bore_would_mm", mm(moved.bore_would)}};
  if (context.options.json)
    context.print(json);
  else
    show_moved_ring(context, json, *feature, engine->spec->unit);
  return Exit::done;
}

Result<Exit> suppose(const Suppose& words, Context& context) {
  TENTH_TRY(const LedgerCopy copy, copy_ledger(context));
  TENTH_TRY(const Engine* const engine, engine_of(copy.bench, words.engine));
  const Spec& spec = *engine->spec;
  TENTH_TRY(const Fit* const fit, find_fit(spec, words.fit));
  TENTH_TRY(const int index, find_index(*spec.find(fit->inside), words.index));
  TENTH_TRY(const Supposed what, supposed(words, context.options.unit.value_or(spec.unit)));
  TENTH_TRY(const Shelf shelf, shelf_of(words.stock, spec));
  TENTH_TRY(const FitResult would, what_if(*engine, shelf.get(), *fit, index, what));
  TENTH_TRY(const FitResult now, what_if(*engine, nullptr, *fit, index, {}));
  const Json json = {
      {"engine", engine->name}, {"seq", copy.head.seq}, {"now", fit_json(now)}, {"would", fit_json(would)}};
  if (context.options.json)
    context.print(json);
  else
    show_what_if(context, json, spec.unit);
  return Exit::done;
}

Action declare_what_if(CLI::App& app) {
  auto words = std::make_shared<Suppose>();
  app.add_option("FIT", words->fit, "The clearance; with --bore the gap")->required();
  app.add_option("INDEX", words->index, "Of the inside part")->required();
  app.add_option("--inside", words->inside, "The inside part had this size everywhere")->type_name("L");
  app.add_option("--outside", words->outside, "The outside part had this size everywhere")->type_name("L");
  app.add_option("--shells", words->shells, "These halves sat there; wants --stock")
      ->type_name("UPPER LOWER")
      ->expected(2);
  app.add_option("--temperature", words->temperature, "Both parts were this warm: degrees Celsius, or 200F")
      ->type_name("T");
  app.add_option("--stock", words->stock, "The stock file that names the halves")->type_name("FILE");
  app.add_option("--engine", words->engine, "This engine; else the one in use")->type_name("NAME");
  app.add_option("--bore", words->bore, "Of a ring's gap: it ran in this bore instead")->type_name("INDEX");
  return [words](Context& context) {
    return words->bore.empty() ? suppose(*words, context) : suppose_ring(*words, context);
  };
}

}  // namespace

std::vector<Command> remedy_commands() {
  return {{"remedies",
           "What would bring in what is out; exit 1 if nothing does",
           {"tenth remedies --stock shelf.toml", "tenth remedies --stock shelf.toml --json"},
           declare_remedies},
          {"what-if",
           "A clearance as it would be; changes nothing",
           {"tenth what-if main_clearance 3 --outside 2.2480",
            "tenth what-if main_clearance 3 --shells plain-upper plain-lower --stock shelf.toml",
            "tenth what-if piston_clearance 1 --temperature 90", "tenth what-if ring_gap_top 3 --bore 5"},
           declare_what_if}};
}

}  // namespace tenth::cli
