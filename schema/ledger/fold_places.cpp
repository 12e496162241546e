#include "schema/ledger/fold_parts.hpp"
#include "schema/ledger/place_json.hpp"

namespace tenth {
namespace {

Standing& standing_in(Bench& bench, const Json& body) {
  const auto gauge = text_at(body, "gauge");
  return gauge ? bench.own[*gauge] : bench.common;
}

}  // namespace

void apply_place(Bench& bench, const Entry& entry) {
  Standing& standing = standing_in(bench, entry.body);
  standing.seq = entry.seq;
  standing.engine = text_at(entry.body, "engine");
  standing.place = get_place(entry.body);
  const auto round = seq_at(entry.body, "round");
  if (!round || !standing.round || standing.round->seq != *round)
    standing.round.reset();
  else
    standing.at = entry.body.at("at").get<std::size_t>();
}

void apply_common(Bench& bench, const Entry& entry) {
  bench.own.erase(entry.body.at("gauge").get<std::string>());
}

void apply_round(Bench& bench, const Entry& entry) {
  Standing& standing = standing_in(bench, entry.body);
  Round round;
  round.seq = entry.seq;
  round.again = entry.body.at("again").get<bool>();
  round.study = text_at(entry.body, "study");
  for (const Json& place : entry.body.at("places")) round.places.push_back(place_from(place));
  standing.seq = entry.seq;
  standing.engine = text_at(entry.body, "engine");
  standing.place.reset();
  standing.round = std::move(round);
  standing.at = 0;
}

}  // namespace tenth
