#include <algorithm>
#include <filesystem>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/intake.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/params.hpp"
#include "rules/figure.hpp"
#include "schema/import/import_file.hpp"
#include "schema/json/escape.hpp"
#include "schema/json/time.hpp"
#include "schema/ledger/place_json.hpp"
#include "schema/store/hash.hpp"

namespace tenth {
namespace {

/// Of a claim nothing is doubted: it is not judged. Nobody could have measured a part here while it was away.
std::vector<Doubt> doubts_of(const Draft& draft, const Engine& engine, const ImportRow& row, bool claimed) {
  if (claimed) return {};
  const auto gauge = draft.bench().gauges.find(row.gauge);
  auto doubts = doubts_at(engine, row.place,
                          gauge == draft.bench().gauges.end() ? Measures::any : gauge->second.measures, row.value);
  std::erase(doubts, Doubt::away);
  return doubts;
}

Json who_of(const Draft& draft, const ImportRow& row) {
  const auto gauge = draft.bench().gauges.find(row.gauge);
  const auto known = draft.bench().operators.find(row.operator_name);
  return {{"operator", text_or_null(row.operator_name)},
          {"operator_entry", known != draft.bench().operators.end() ? Json(known->second.entry) : Json(nullptr)},
          {"gauge", text_or_null(row.gauge)},
          {"gauge_entry", gauge != draft.bench().gauges.end() ? Json(gauge->second.entry) : Json(nullptr)}};
}

/// A row as a reading: what nobody knows of it is null.
Json reading_body(const Draft& draft, const Engine& engine, const ImportRow& row,
                  const std::optional<std::string>& claimed_by) {
  const auto doubts = doubts_of(draft, engine, row, claimed_by.has_value());
  const Stage& stage = stage_of(engine, row.place.feature);
  Json body = {{"raw", escape_bytes(row.text)},
               {"text", row.text},
               {"unit", name(row.unit)},
               {"value_pm", row.value.pm()},
               {"size_pm", row.value.pm()},
               {"size_20c_pm", nullptr},
               {"source", name(Source::imported)},
               {"reason", nullptr},
               {"moved_from", nullptr},
               {"closed", false},
               {"overdue", false},
               {"dropped", 0},
               {"spread_pm", nullptr},
               {"passes", nullptr},
               {"setting", nullptr},
               {"calibration", nullptr},
               {"place", nullptr},
               {"temperature", nullptr},
               {"profile", nullptr},
               {"engine", engine.name},
               {"spec", engine.spec_seq},
               {"stage", stage.name},
               {"program", "tenthd " TENTH_VERSION}};
  body.update({{"label", label_of(*engine.spec->find(row.place.feature), row.place.index)},
               {"stage_entry", number_or_null(stage.entry)},
               {"measured_at", text_or_null(row.time)},
               {"note", text_or_null(row.note)},
               {"claimed_by", or_null(claimed_by)}});
  body.update(who_of(draft, row));
  put_place(body, row.place);
  body["state"] = name(claimed_by ? State::claimed : doubts.empty() ? State::kept : State::suspect);
  body["doubts"] = Json::array();
  for (const Doubt doubt : doubts) body["doubts"].push_back(name(doubt));
  return body;
}

Json row_json(const Engine& engine, const ImportRow& row) {
  return {{"line", row.line},
          {"place", slashed(row.place, *engine.spec)},
          {"size_mm", mm(row.value)},
          {"unit", name(row.unit)}};
}

/// The same table twice would let every figure stand for two presses.
Result<void> once_only(const Engine& engine, const std::string& sha256) {
  const auto before = engine.imports.find(sha256);
  const auto stands = [&](const Reading& reading) {
    return reading.import == before->second && reading.state != State::voided;
  };
  if (before == engine.imports.end() || std::ranges::none_of(engine.readings, stands)) return {};
  return refuse("imported", "this very table was brought already, in entry " + std::to_string(before->second),
                "`tenth void SEQ..SEQ --reason TEXT` its rows first, if it is to be brought anew");
}

/// What was measured was measured before now; a day counts as past until it has begun everywhere.
Result<void> all_past(const std::vector<ImportRow>& rows, const std::string& file, std::int64_t now_us) {
  constexpr std::int64_t kDay_us = 86'400'000'000;
  const std::string tomorrow = rfc3339(now_us + kDay_us);
  for (const ImportRow& row : rows)
    if (wall_us_from(row.time).value_or(0) > now_us || row.time > tomorrow)
      return refuse("import", file + ":" + std::to_string(row.line) + ": " + row.time + " is still to come",
                    "write when it was measured, or leave the time out");
  return {};
}

}  // namespace

/// With `preview` the table is read and nothing is stored.
Decided import_table(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string file, params.text("file"));
  TENTH_TRY(const std::string text, params.file("text"));
  TENTH_TRY(const std::optional<std::string> claimed_by, params.maybe_text("claimed_by"));
  TENTH_TRY(const bool preview, params.flag("preview"));
  if (claimed_by && blank(*claimed_by))
    return wrong_words("claimed_by", "a claim is somebody's", "say whose: --claimed-by TEXT");
  TENTH_TRY(const Engine* const found, engine_or_used(draft.bench(), std::nullopt));
  TENTH_TRY(const std::optional<Unit> bare, params.unit(found->spec->unit));
  TENTH_TRY(const std::vector<ImportRow> rows, read_import(text, file, *found->spec, *bare));
  if (auto past = all_past(rows, file, draft.now().wall_us); !past) return tl::unexpected(past.error());
  const Engine& engine = *found;
  Json answer = {
      {"engine", engine.name}, {"file", file},      {"sha256", hex(sha256(text))}, {"claimed_by", or_null(claimed_by)},
      {"rows", Json::array()}, {"import", nullptr}, {"seqs", Json::array()}};
  for (const ImportRow& row : rows) answer["rows"].push_back(row_json(engine, row));
  if (!preview) {
    if (auto once = once_only(engine, answer["sha256"]); !once) return tl::unexpected(once.error());
    const std::int64_t import = draft.append("import", {{"engine", engine.name},
                                                        {"spec", engine.spec_seq},
                                                        {"file", std::filesystem::path(file).filename().string()},
                                                        {"sha256", answer["sha256"]},
                                                        {"rows", rows.size()},
                                                        {"claimed_by", or_null(claimed_by)}});
    answer["import"] = import;
    for (const ImportRow& row : rows) {
      Json body = reading_body(draft, engine, row, claimed_by);
      body["import"] = import;
      answer["seqs"].push_back(draft.append("reading", std::move(body)));
    }
  }
  return [answer](const View& view) {
    Json told = answer;
    std::map<std::string, int> states = {{"kept", 0}, {"suspect", 0}, {"claimed", 0}};
    for (const Json& seq : answer["seqs"])
      ++states[std::string(name(find_reading(view.bench, seq.get<std::int64_t>())->state))];
    for (const auto& [state, number] : states) told[state] = number;
    return told;
  };
}

}  // namespace tenth
