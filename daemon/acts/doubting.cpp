#include "daemon/acts/doubting.hpp"

#include <algorithm>
#include <map>

#include "daemon/acts/intake.hpp"
#include "daemon/acts/master_studies.hpp"
#include "daemon/acts/settings.hpp"
#include "daemon/acts/standing.hpp"

namespace tenth {

std::vector<const Reading*> all_readings(const Bench& bench) {
  std::vector<const Reading*> all;
  for (const auto& [name, engine] : bench.engines)
    for (const Reading& reading : engine.readings) all.push_back(&reading);
  for (const Reading& reading : bench.placeless) all.push_back(&reading);
  return all;
}

void append_by_engine(Draft& draft, const std::string& kind, const std::vector<std::int64_t>& seqs, const Json& body) {
  std::map<std::optional<std::string>, std::vector<std::int64_t>> by_engine;
  for (const std::int64_t seq : seqs) by_engine[find_reading(draft.bench(), seq)->engine].push_back(seq);
  for (const auto& [engine, own] : by_engine) {
    Json each = body;
    each["engine"] = or_null(engine);
    each["seqs"] = own;
    draft.append(kind, std::move(each));
  }
}

void doubt_readings(Draft& draft, const std::vector<std::int64_t>& seqs, Doubt doubt,
                    std::optional<std::int64_t> setting) {
  append_by_engine(draft, "doubt", seqs, {{"doubt", name(doubt)}, {"setting", or_null(setting)}});
}

namespace {

/// A round that has just left a place for a reading that is now suspect stands there again.
void step_back(Draft& draft, const Reading& reading) {
  const auto own = own_or_common(draft.bench(), reading.gauge);
  const Standing& standing = standing_of(draft.bench(), own);
  if (!standing.round || standing.at == 0 || standing.engine != reading.engine) return;
  if (standing.round->places[standing.at - 1] == reading.place) stand_in_round(draft, own, standing.at - 1);
}

}  // namespace

void doubt_damaged(Draft& draft, const std::vector<std::int64_t>& seqs) {
  std::vector<std::int64_t> kept = seqs;
  std::erase_if(kept, [&](std::int64_t seq) {
    const Reading* const reading = find_reading(draft.bench(), seq);
    return reading == nullptr || reading->state != State::kept;
  });
  for (const std::int64_t seq : seqs)
    if (const Setting* const setting = find_setting(draft.bench(), seq); setting != nullptr && !setting->voided)
      void_setting(draft, *setting, "bytes beside its frame were damaged");
  void_damaged_turns(draft, seqs);
  if (kept.empty()) return;
  doubt_readings(draft, kept, Doubt::damaged, std::nullopt);
  for (const std::int64_t seq : kept) step_back(draft, *find_reading(draft.bench(), seq));
}

}  // namespace tenth
