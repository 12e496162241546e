#include "daemon/acts/doubting.hpp"

#include <algorithm>
#include <map>

#include "daemon/acts/intake.hpp"

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

void doubt_readings(Draft& draft, const std::vector<std::int64_t>& seqs, Doubt doubt, std::optional<std::int64_t> setting) {
  append_by_engine(draft, "doubt", seqs, {{"doubt", name(doubt)}, {"setting", or_null(setting)}});
}

void doubt_damaged(Draft& draft, const std::vector<std::int64_t>& seqs) {
  std::vector<std::int64_t> kept = seqs;
  std::erase_if(kept, [&](std::int64_t seq) {
    const Reading* const reading = find_reading(draft.bench(), seq);
    return reading == nullptr || reading->state != State::kept;
  });
  if (!kept.empty()) doubt_readings(draft, kept, Doubt::damaged, std::nullopt);
}

}  // namespace tenth
