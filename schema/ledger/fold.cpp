#include "schema/ledger/fold.hpp"

#include <functional>
#include <map>
#include <stdexcept>

#include "schema/ledger/fold_parts.hpp"

namespace tenth {
namespace {

void apply_ledger(Bench& bench, const Entry& entry) {
  bench.id = entry.body.at("id").get<std::string>();
}

void apply_operator(Bench& bench, const Entry& entry) {
  const auto name = entry.body.at("name").get<std::string>();
  bench.operators[name] = {entry.seq, name, text_at(entry.body, "user").value_or("")};
}

void apply_operator_use(Bench& bench, const Entry& entry) {
  const auto name = entry.body.at("name").get<std::string>();
  if (const auto gauge = text_at(entry.body, "gauge"))
    bench.gauge_operators[*gauge] = name;
  else
    bench.operator_name = name;
}

void apply_pedal(Bench& bench, const Entry& entry) {
  const auto name = entry.body.at("pedal").get<std::string>();
  bench.pedals[name] = {entry.seq, name, entry.body.at("port").get<std::string>(),
                        entry.body.at("press").get<std::string>(), text_at(entry.body, "long")};
}

void apply_pedal_drop(Bench& bench, const Entry& entry) {
  bench.pedals.erase(entry.body.at("pedal").get<std::string>());
}

/// What changes nothing in the state: it is kept for whoever asks who did what, when.
void keep_only(Bench&, const Entry&) {}

using Apply = void (*)(Bench&, const Entry&);

const std::map<std::string, Apply, std::less<>>& kinds() {
  static const std::map<std::string, Apply, std::less<>> table = {
      {"ledger", apply_ledger},
      {"start", keep_only},
      {"stop", keep_only},
      {"clock", keep_only},
      {"fault", keep_only},
      {"stream", keep_only},
      {"refused", keep_only},
      {"profile", apply_profile},
      {"operator", apply_operator},
      {"operator_use", apply_operator_use},
      {"spec", apply_spec},
      {"engine", apply_engine},
      {"engine_use", apply_engine_use},
      {"gauge", apply_gauge},
      {"gauge_drop", apply_gauge_drop},
      {"pedal", apply_pedal},
      {"pedal_drop", apply_pedal_drop},
      {"link", apply_link},
      {"await", apply_await},
      {"await_end", apply_await_end},
      {"setting", apply_setting},
      {"setting_void", apply_setting_void},
      {"setting_correct", apply_setting_correct},
      {"resized", apply_resized},
      {"master", apply_master},
      {"master_drop", apply_master_drop},
      {"calibration", apply_calibration},
      {"gauge_doubt", keep_only},
      {"place", apply_place},
      {"common", apply_common},
      {"round", apply_round},
      {"study", apply_study},
      {"master_study", apply_master_study},
      {"on_master", apply_on_master},
      {"turns_void", apply_turns_void},
      {"reading", apply_reading},
      {"answer", apply_answer},
      {"note", apply_note},
      {"void", apply_void},
      {"keep", apply_keep},
      {"move", apply_move},
      {"doubt", apply_doubt},
      {"closed", apply_closed},
      {"reopened", apply_reopened},
      {"stage", apply_stage},
      {"decide", apply_decide},
      {"install", apply_install},
      {"mate", apply_mate},
      {"attach", apply_attach},
      {"import", apply_import},
      {"setup", apply_setup},
      {"send", apply_send},
      {"receive", apply_receive},
      {"temperature", apply_temperature},
      {"alert", apply_alert},
      {"alert_end", apply_alert_end},
      {"alert_clear", apply_alert_clear},
  };
  return table;
}

}  // namespace

bool is_known(const Json& body) {
  constexpr int kFormat = 1;
  const auto kind = body.value("kind", std::string());
  return kinds().contains(kind) && (kind != "ledger" || body.value("format", kFormat) <= kFormat);
}

void apply(Bench& bench, const Entry& entry) {
  const auto kind = entry.body.at("kind").get<std::string>();
  const auto found = kinds().find(kind);
  if (found == kinds().end()) throw std::runtime_error("unknown kind of entry: " + kind);
  found->second(bench, entry);
  bench.seq = entry.seq;
  bench.time = entry.body.value("time", "");
}

Engine& engine_of(Bench& bench, const Entry& entry) {
  return bench.engines.at(entry.body.at("engine").get<std::string>());
}

std::optional<std::string> text_at(const Json& body, const char* key) {
  const auto found = body.find(key);
  if (found == body.end() || found->is_null()) return std::nullopt;
  return found->get<std::string>();
}

std::optional<Length> length_at(const Json& body, const char* key) {
  const auto found = body.find(key);
  if (found == body.end() || found->is_null()) return std::nullopt;
  // A size is a sum of three lengths, each at most `kLongest`; beyond that, sums of a forged body could leave 64 bits.
  const auto length = Length::from_pm(found->get<std::int64_t>());
  if (length > kLongest * 3 || length < -(kLongest * 3)) throw std::runtime_error(std::string("too long: ") + key);
  return length;
}

std::string who_did(const Json& body) {
  return text_at(body, "operator").value_or(body.at("by").at("user").get<std::string>());
}

std::optional<std::int64_t> seq_at(const Json& body, const char* key) {
  const auto found = body.find(key);
  if (found == body.end() || found->is_null()) return std::nullopt;
  return found->get<std::int64_t>();
}

}  // namespace tenth
