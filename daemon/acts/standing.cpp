#include "daemon/acts/standing.hpp"

#include <algorithm>

#include "schema/ledger/place_json.hpp"

namespace tenth {
namespace {

Json place_body(const Draft& draft, const std::optional<std::string>& gauge, const std::string& engine,
                const std::optional<Place>& place) {
  Json body = {{"gauge", or_null(gauge)}, {"engine", engine}, {"spec", draft.bench().engines.at(engine).spec_seq}};
  put_place(body, place);
  body["round"] = nullptr;
  body["at"] = nullptr;
  return body;
}

/// On a round that goes over everything again only what was kept since it began counts.
bool satisfied_again(const Engine& engine, const Place& place, std::int64_t round) {
  const Feature* const feature = engine.spec->find(place.feature);
  if (feature->kind == Kind::check) {
    const auto answer = engine.answers.find({place.feature, place.index});
    return answer != engine.answers.end() && answer->second.seq > round;
  }
  const auto kept = kept_at(engine, place);
  return std::count_if(kept.begin(), kept.end(), [round](const Reading* reading) { return reading->seq > round; }) >=
         feature->presses;
}

}  // namespace

std::int64_t choose_place(Draft& draft, const std::optional<std::string>& gauge, const std::string& engine,
                          const Place& place) {
  return draft.append("place", place_body(draft, gauge, engine, place));
}

void leave_place(Draft& draft, const std::optional<std::string>& gauge) {
  const Standing& standing = standing_of(draft.bench(), own_or_common(draft.bench(), gauge));
  Json body = {{"gauge", or_null(gauge)},
               {"engine", or_null(standing.engine ? standing.engine : draft.bench().engine)}};
  put_place(body, std::nullopt);
  body["round"] = nullptr;
  body["at"] = nullptr;
  draft.append("place", std::move(body));
}

void stand_in_round(Draft& draft, const std::optional<std::string>& gauge, std::size_t at) {
  const Standing& standing = gauge ? draft.bench().own.at(*gauge) : draft.bench().common;
  const auto& places = standing.round->places;
  Json body = place_body(draft, gauge, *standing.engine,
                         at < places.size() ? std::optional(places[at]) : std::optional<Place>());
  body["round"] = standing.round->seq;
  body["at"] = at;
  draft.append("place", std::move(body));
}

bool satisfied(const Engine& engine, const Place& place) {
  const Feature* const feature = engine.spec->find(place.feature);
  if (feature->kind == Kind::check) {
    const auto answer = engine.answers.find({place.feature, place.index});
    return answer != engine.answers.end() && answer->second.answer != Answer::later;
  }
  return static_cast<int>(kept_at(engine, place).size()) >= feature->presses;
}

std::size_t next_open(const Engine& engine, const Round& round, std::size_t from) {
  std::size_t at = from;
  while (at < round.places.size() && !round.again && satisfied(engine, round.places[at])) ++at;
  return at;
}

void advance(Draft& draft, const std::optional<std::string>& gauge, const std::string& engine_name,
             const Place& place) {
  const std::optional<std::string> own = own_or_common(draft.bench(), gauge);
  const Standing& standing = standing_of(draft.bench(), own);
  if (!standing.round || standing.engine != engine_name || standing.place != place) return;
  const Engine& engine = draft.bench().engines.at(engine_name);
  const bool answered_later = engine.spec->find(place.feature)->kind == Kind::check;
  const bool done =
      standing.round->study || (standing.round->again ? satisfied_again(engine, place, standing.round->seq)
                                                      : answered_later || satisfied(engine, place));
  if (done) stand_in_round(draft, own, next_open(engine, *standing.round, standing.at + 1));
}

std::optional<std::string> own_or_common(const Bench& bench, const std::optional<std::string>& gauge) {
  return gauge && bench.own.contains(*gauge) ? gauge : std::nullopt;
}

std::vector<std::string> end_waiting(Draft& draft, const std::optional<std::string>& gauge, const std::string& why) {
  std::vector<std::string> ended;
  for (const auto& [name, known] : draft.bench().gauges)
    if (known.awaited && (gauge ? name == *gauge : !draft.bench().own.contains(name))) ended.push_back(name);
  for (const std::string& name : ended) draft.append("await_end", {{"gauge", name}, {"why", why}});
  return ended;
}

}  // namespace tenth
