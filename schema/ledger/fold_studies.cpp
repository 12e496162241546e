#include <algorithm>

#include "schema/ledger/fold_parts.hpp"
#include "schema/ledger/place_json.hpp"

namespace tenth {

void apply_study(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  Study study;
  study.seq = entry.seq;
  study.name = body.at("study").get<std::string>();
  study.engine = body.at("engine").get<std::string>();
  study.gauge = body.at("gauge").get<std::string>();
  study.feature = body.at("feature").get<std::string>();
  study.parts = body.at("parts").get<int>();
  study.trials = body.at("trials").get<int>();
  study.tolerance = length_at(body, "tolerance_pm");
  study.operators = body.at("operators").get<std::vector<std::string>>();
  for (const Json& turn : body.at("order"))
    study.order.push_back({turn.at("part").get<int>(), turn.at("trial").get<int>(), turn.at("by").get<std::string>(),
                           place_from(turn.at("place"))});
  bench.studies[study.name] = std::move(study);
}

void apply_master_study(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  MasterStudy study;
  study.seq = entry.seq;
  study.name = body.at("study").get<std::string>();
  study.gauge = body.at("gauge").get<std::string>();
  study.linearity = body.at("what") == "linearity";
  for (const Json& turn : body.at("order")) study.order.push_back(length_at(turn, "master_pm").value());
  bench.master_studies[study.name] = std::move(study);
}

void apply_on_master(Bench& bench, const Entry& entry) {
  MasterStudy& study = bench.master_studies.at(entry.body.at("study").get<std::string>());
  study.seq = entry.seq;
  study.shown.push_back(length_at(entry.body, "shown_pm").value());
  bench.gauges.at(entry.body.at("gauge").get<std::string>()).awaited.reset();
}

/// The last turns count no more; their masters are asked for again at the end.
void apply_turns_void(Bench& bench, const Entry& entry) {
  MasterStudy& study = bench.master_studies.at(entry.body.at("study").get<std::string>());
  study.seq = entry.seq;
  const std::size_t left = study.shown.size() - entry.body.at("turns").get<std::size_t>();
  const auto from = study.order.begin() + static_cast<std::ptrdiff_t>(left);
  std::rotate(from, study.order.begin() + static_cast<std::ptrdiff_t>(study.shown.size()), study.order.end());
  study.shown.resize(left);
}

}  // namespace tenth
