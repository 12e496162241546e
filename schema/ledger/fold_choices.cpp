#include <algorithm>
#include <stdexcept>

#include "rules/couples.hpp"
#include "schema/ledger/fold_parts.hpp"
#include "schema/ledger/place_json.hpp"

namespace tenth {

void note_choice(Bench& bench, const Entry& entry, std::string text) {
  const Json& body = entry.body;
  bench.choices.push_back({entry.seq, body.at("kind").get<std::string>(), body.at("engine").get<std::string>(),
                           body.at("time").get<std::string>(), std::move(text), who_did(body),
                           text_at(body, "reason")});
}

/// A note that is about no engine is in the ledger only.
void apply_note(Bench& bench, const Entry& entry) {
  const auto engine = text_at(entry.body, "engine");
  if (!engine) return;
  const auto place = get_place(entry.body);
  const std::string where = place ? " at " + spoken(*place, *bench.engines.at(*engine).spec) : "";
  note_choice(bench, entry, "note" + where + ": " + entry.body.at("text").get<std::string>());
}

void apply_decide(Bench& bench, const Entry& entry) {
  const auto remedy = text_at(entry.body, "remedy");
  note_choice(bench, entry, entry.body.at("text").get<std::string>() + (remedy ? " (remedy " + *remedy + ")" : ""));
}

/// The file itself stays where it is; the record names it by its digest.
void apply_attach(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  if (!text_at(body, "engine")) return;
  note_choice(bench, entry,
              "attached: " + body.at("file").get<std::string>() + ", " +
                  std::to_string(body.at("bytes").get<std::int64_t>()) + " bytes, SHA-256 " +
                  body.at("sha256").get<std::string>());
}

void apply_import(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  const auto claimed_by = text_at(body, "claimed_by");
  engine_of(bench, entry).imports[body.at("sha256").get<std::string>()] = entry.seq;
  note_choice(bench, entry,
              std::to_string(body.at("rows").get<std::int64_t>()) + " figures from " +
                  body.at("file").get<std::string>() + (claimed_by ? ", claimed by " + *claimed_by : std::string()) +
                  ", SHA-256 " + body.at("sha256").get<std::string>());
}

/// A half stands beside the other half; a whole part takes the place of both.
void apply_install(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  Engine& engine = engine_of(bench, entry);
  const auto feature = body.at("feature").get<std::string>(), part = body.at("part").get<std::string>();
  const auto half = text_at(body, "half");
  const std::pair where(feature, body.at("index").get<int>());
  Installed& sits = engine.installed[where];
  if (!half) sits = {part, "", ""};
  if (half) {
    sits.whole.clear();
    (*half == "upper" ? sits.upper : sits.lower) = part;
  }
  engine.replaced[where].push_back(entry.seq);
  note_choice(
      bench, entry,
      feature + " " + body.at("label").get<std::string>() + (half ? " " + *half : "") + ": " + part + " installed");
}

void apply_mate(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  Engine& engine = engine_of(bench, entry);
  const auto index = body.at("index").get<int>(), outside_index = body.at("outside_index").get<int>();
  const auto fit = std::ranges::find(engine.spec->fits, body.at("fit").get<std::string>(), &Fit::name);
  if (fit == engine.spec->fits.end() ||
      std::ranges::find(fit->couples, index, &Couple::inside_index) == fit->couples.end() || outside_index < 1 ||
      outside_index > engine.spec->find(fit->outside)->count())
    throw std::runtime_error("a mate of parts that the spec lacks");
  mate(engine, *fit, index, outside_index);
  note_choice(bench, entry,
              fit->name + ": " + fit->inside + " " + body.at("label").get<std::string>() + " goes with " +
                  fit->outside + " " + body.at("outside_label").get<std::string>());
}

}  // namespace tenth
