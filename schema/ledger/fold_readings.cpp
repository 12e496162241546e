#include <algorithm>
#include <stdexcept>

#include "rules/uncertainty.hpp"
#include "schema/ledger/fold_parts.hpp"
#include "schema/ledger/place_json.hpp"

namespace tenth {
namespace {

std::vector<Doubt> doubts_from(const Json& names) {
  std::vector<Doubt> doubts;
  for (const Json& item : names) doubts.push_back(doubt_named(item.get<std::string>()).value());
  return doubts;
}

void index_readings(Bench& bench, const std::string& engine, const std::vector<Reading>& readings, std::size_t from) {
  for (std::size_t i = from; i < readings.size(); ++i) bench.reading_index[readings[i].seq] = {engine, i};
}

/// Puts a reading among those of its engine, which stand in order of seq.
void house(Bench& bench, Reading reading) {
  const std::string engine = reading.engine.value_or("");
  auto& readings = engine.empty() ? bench.placeless : bench.engines.at(engine).readings;
  const auto at = std::upper_bound(readings.begin(), readings.end(), reading.seq,
                                   [](std::int64_t seq, const Reading& other) { return seq < other.seq; });
  const auto position = static_cast<std::size_t>(at - readings.begin());
  readings.insert(at, std::move(reading));
  index_readings(bench, engine, readings, position);
}

/// A reading that was taken with no engine in use comes to the engine that a move names.
void adopt(Bench& bench, std::int64_t seq, const std::string& engine) {
  const std::size_t position = bench.reading_index.at(seq).second;
  Reading reading = std::move(bench.placeless[position]);
  bench.placeless.erase(bench.placeless.begin() + static_cast<std::ptrdiff_t>(position));
  index_readings(bench, "", bench.placeless, position);
  reading.engine = engine;
  house(bench, std::move(reading));
}

Reading& reading_at(Bench& bench, std::int64_t seq) {
  Reading* const reading = find_reading(bench, seq);
  if (reading == nullptr) throw std::runtime_error("an entry about a reading that is not there");
  return *reading;
}

/// A reading at the place where the round of a study stands is the one that this turn asks for.
std::optional<StudyTaken> taken_for(const Bench& bench, const Reading& reading, std::optional<std::int64_t> place) {
  const Standing& standing = standing_of(bench, reading.gauge);
  if (!place || standing.seq != *place || !standing.round || !standing.round->study) return std::nullopt;
  return StudyTaken{*standing.round->study, standing.at};
}

void give_reason(Reading& reading, const Entry& entry) {
  reading.reason = text_at(entry.body, "reason");
  reading.reason_by = who_did(entry.body);
  reading.reason_time = entry.body.at("time").get<std::string>();
}

void set_states(Bench& bench, const Entry& entry, State state) {
  for (const Json& seq : entry.body.at("seqs")) {
    Reading& reading = reading_at(bench, seq.get<std::int64_t>());
    reading.state = state;
    give_reason(reading, entry);
  }
}

void set_closed(Bench& bench, const Entry& entry, bool closed) {
  for (const Json& seq : entry.body.at("seqs")) reading_at(bench, seq.get<std::int64_t>()).closed = closed;
}

/// What is known of its gauge when it is taken; one that was set in another gauge is as uncertain as both together.
void take_from_gauge(const Bench& bench, Reading& reading) {
  const auto gauge = reading.gauge ? bench.gauges.find(*reading.gauge) : bench.gauges.end();
  if (gauge == bench.gauges.end()) return;
  reading.uncertainty = gauge->second.uncertainty;
  reading.repeatability = gauge->second.repeatability;
  reading.gauge_expansion = gauge->second.expansion.value_or(kGaugeExpansion);
  const Setting* const setting = reading.setting ? find_setting(bench, *reading.setting) : nullptr;
  if (setting != nullptr && !setting->used.gauge.empty())
    reading.uncertainty = joined(reading.uncertainty, setting->used.uncertainty);
}

}  // namespace

void correct_to_20c(const Bench& bench, Reading& reading) {
  reading.size_20c = reading.engine ? size_20c_of(reading, *bench.engines.at(*reading.engine).spec) : std::nullopt;
}

void apply_reading(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  Reading reading;
  reading.seq = entry.seq;
  reading.hash = entry.hash;
  reading.time = body.at("time").get<std::string>();
  reading.engine = text_at(body, "engine");
  reading.place = get_place(body);
  reading.label = text_at(body, "label").value_or("");
  reading.operator_name = text_at(body, "operator");
  reading.gauge = text_at(body, "gauge");
  reading.raw = body.at("raw").get<std::string>();
  reading.text = body.at("text").get<std::string>();
  reading.unit = parse_unit(body.at("unit").get<std::string>()).value();
  reading.value = length_at(body, "value_pm").value();
  reading.size = length_at(body, "size_pm");
  reading.state = state_named(body.at("state").get<std::string>()).value();
  reading.stage = text_at(body, "stage").value_or("");
  reading.stage_entry = seq_at(body, "stage_entry").value_or(0);
  reading.doubts = doubts_from(body.at("doubts"));
  reading.source = source_named(body.at("source").get<std::string>()).value();
  reading.reason = text_at(body, "reason");
  reading.setting = seq_at(body, "setting");
  reading.calibration = seq_at(body, "calibration");
  reading.overdue = body.value("overdue", false);
  reading.note = text_at(body, "note").value_or("");
  reading.import = seq_at(body, "import");
  reading.measured_at = text_at(body, "measured_at").value_or("");
  reading.claimed_by = text_at(body, "claimed_by").value_or("");
  take_from_gauge(bench, reading);
  reading.spread = length_at(body, "spread_pm");
  if (const auto passes = seq_at(body, "passes")) reading.passes = static_cast<int>(*passes);
  if (const auto told = seq_at(body, "temperature")) reading.temperatures = bench.temperatures.at(*told).temperatures;
  correct_to_20c(bench, reading);
  reading.study = taken_for(bench, reading, seq_at(body, "place"));
  house(bench, std::move(reading));
}

void apply_answer(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  Answered answered;
  answered.answer = answer_from(body.at("answer").get<std::string>()).value();
  answered.note = text_at(body, "note").value_or("");
  answered.seq = entry.seq;
  answered.time = body.at("time").get<std::string>();
  answered.operator_name = text_at(body, "operator");
  Engine& engine = engine_of(bench, entry);
  engine.answers[{body.at("feature").get<std::string>(), body.at("index").get<int>()}] = std::move(answered);
}

void apply_void(Bench& bench, const Entry& entry) {
  set_states(bench, entry, State::voided);
}

void apply_keep(Bench& bench, const Entry& entry) {
  set_states(bench, entry, State::kept);
}

void apply_move(Bench& bench, const Entry& entry) {
  const auto engine = entry.body.at("engine").get<std::string>();
  for (const Json& move : entry.body.at("moves")) {
    const auto seq = move.at("seq").get<std::int64_t>();
    if (!reading_at(bench, seq).engine) adopt(bench, seq, engine);
    Reading& reading = reading_at(bench, seq);
    reading.moved_from = reading.place;
    reading.moved_from_label = reading.label;
    reading.place = get_place(move);
    reading.label = text_at(move, "label").value_or("");
    reading.stage = text_at(move, "stage").value_or("");
    reading.stage_entry = seq_at(move, "stage_entry").value_or(0);
    reading.doubts = doubts_from(move.at("doubts"));
    reading.state = state_named(move.at("state").get<std::string>()).value();
    give_reason(reading, entry);
    reading.moved_reason = reading.reason.value_or("");
    reading.moved_by = reading.reason_by;
    reading.moved_time = reading.reason_time;
    correct_to_20c(bench, reading);
  }
}

void apply_doubt(Bench& bench, const Entry& entry) {
  const Doubt doubt = doubt_named(entry.body.at("doubt").get<std::string>()).value();
  for (const Json& seq : entry.body.at("seqs")) {
    Reading& reading = reading_at(bench, seq.get<std::int64_t>());
    if (std::find(reading.doubts.begin(), reading.doubts.end(), doubt) == reading.doubts.end())
      reading.doubts.push_back(doubt);
    if (reading.state == State::kept) reading.state = State::suspect;
  }
  if (seq_at(entry.body, "gauge_doubt") && text_at(entry.body, "engine"))
    note_choice(bench, entry, "gauge " + entry.body.at("gauge").get<std::string>() + " put in doubt, and its readings");
}

void apply_closed(Bench& bench, const Entry& entry) {
  set_closed(bench, entry, true);
}

void apply_reopened(Bench& bench, const Entry& entry) {
  set_closed(bench, entry, false);
}

}  // namespace tenth
