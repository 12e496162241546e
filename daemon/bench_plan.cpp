#include <algorithm>
#include <set>

#include "daemon/acts/standing.hpp"
#include "daemon/bench_view.hpp"
#include "rules/figure.hpp"
#include "rules/judge.hpp"
#include "rules/names.hpp"

namespace tenth {
namespace {

constexpr Names<CountBy, 4> kCounts{{"number", "cylinders", "mains", "crankpins"}};

/// Places with a reading of this state, of the present stage and part; whose it is, where it is claimed.
std::map<Place, std::string> places_with(const Engine& engine, State state) {
  std::map<Place, std::string> places;
  for (const Reading& reading : engine.readings)
    if (reading.state == state && reading.place &&
        reading.stage_entry == stage_of(engine, reading.place->feature).entry && of_present_part(engine, reading))
      places[*reading.place] = reading.claimed_by;
  return places;
}

class Planner {
 public:
  Planner(const Engine& engine, const CountingMap& counts)
      : engine_(engine),
        counts_(counts),
        suspects_(places_with(engine, State::suspect)),
        claims_(places_with(engine, State::claimed)) {
    for (const auto& [gauge, seqs] : unconfirmed(engine, counts)) unconfirmed_.insert(seqs.begin(), seqs.end());
  }

  Json feature(const Feature& feature) const {
    Json json = {{"feature", feature.name},
                 {"kind", name(feature.kind)},
                 {"count", kCounts.of(feature.count_by)},
                 {"setup", is_set_up(engine_, feature) ? Json(nullptr) : Json(feature.setup)},
                 {"claimed_by", claimants(feature)},
                 {"indexes", Json::array()}};
    for (int position = 1; position <= feature.count(); ++position) json["indexes"].push_back(index(feature, position));
    return json;
  }

 private:
  std::string_view state_at(const Place& place) const {
    if (suspects_.contains(place)) return "suspect";
    if (counts_.contains(place) || satisfied(engine_, place)) return "read";
    return claims_.contains(place) ? "claimed" : "unread";
  }

  /// Whose figures stand where nothing was measured here.
  std::set<std::string> claimants(const Feature& feature) const {
    std::set<std::string> whose;
    for (const auto& [place, who] : claims_)
      if (place.feature == feature.name && state_at(place) == "claimed") whose.insert(who);
    return whose;
  }

  bool unconfirmed_at(const Place& place) const {
    const auto here = counts_.find(place);
    return here != counts_.end() &&
           std::ranges::any_of(here->second.seqs, [this](std::int64_t seq) { return unconfirmed_.contains(seq); });
  }

  /// What its figures come to: `unread`, `part`, the verdict, or `read` where nothing is judged.
  std::string_view figure_at(const Feature& feature, int position, std::size_t read, std::size_t of) const {
    if (feature.kind == Kind::check) {
      const auto found = engine_.answers.find({feature.name, position});
      if (found == engine_.answers.end()) return "unread";
      if (found->second.answer == Answer::later) return "part";
      return found->second.answer == Answer::no ? "out" : found->second.answer == Answer::yes ? "in" : "read";
    }
    const auto verdict = judge_feature(engine_, counts_, feature, position).verdict;
    if (verdict && *verdict != Verdict::incomplete && (read == of || *verdict == Verdict::out)) return name(*verdict);
    if (read == 0) return "unread";
    return read < of ? "part" : "read";
  }

  Json index(const Feature& feature, int position) const {
    Json json = {{"index", position}, {"label", label_of(feature, position)}, {"places", Json::array()}};
    const std::vector<Place> places = places_of(feature, position);
    std::size_t read = 0, suspect = 0, claimed = 0;
    for (const Place& place : places) {
      const std::string_view state = state_at(place);
      suspect += state == "suspect" ? 1U : 0U;
      claimed += state == "claimed" ? 1U : 0U;
      read += counts_.contains(place) ? 1U : 0U;
      json["places"].push_back(
          {{"level", text_or_null(place.level)}, {"axis", text_or_null(place.axis)}, {"state", state}});
    }
    const std::string_view figure = figure_at(feature, position, read, places.size());
    json["state"] = suspect > 0 && figure != "out" ? "suspect" : claimed > 0 && figure == "unread" ? "claimed" : figure;
    json["unconfirmed"] = std::ranges::any_of(places, [this](const Place& place) { return unconfirmed_at(place); });
    return json;
  }

  const Engine& engine_;
  const CountingMap& counts_;
  const std::map<Place, std::string> suspects_, claims_;
  std::set<std::int64_t> unconfirmed_;
};

}  // namespace

Json bench_plan(const Engine& engine, const CountingMap& counts) {
  const Planner planner(engine, counts);
  Json plan = Json::array();
  for (const Feature& feature : engine.spec->features) plan.push_back(planner.feature(feature));
  return plan;
}

Json bench_layout(const Layout& layout) {
  return {{"cylinders", or_null(layout.cylinders)},
          {"mains", or_null(layout.mains)},
          {"crankpins", or_null(layout.crankpins)},
          {"viewed_from", text_or_null(layout.viewed_from)},
          {"labels", layout.labels},
          {"main_labels", layout.main_labels},
          {"pins", layout.pins}};
}

}  // namespace tenth
