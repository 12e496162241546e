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

/// Places with a suspect reading of the present stage and part that nobody has decided on.
std::set<Place> suspect_places(const Engine& engine) {
  std::set<Place> places;
  for (const Reading& reading : engine.readings)
    if (reading.state == State::suspect && reading.place &&
        reading.stage_entry == stage_of(engine, reading.place->feature).entry && of_present_part(engine, reading))
      places.insert(*reading.place);
  return places;
}

class Planner {
 public:
  explicit Planner(const Engine& engine)
      : engine_(engine), counts_(counting(engine)), suspects_(suspect_places(engine)) {}

  Json feature(const Feature& feature) const {
    Json json = {{"feature", feature.name},
                 {"kind", name(feature.kind)},
                 {"count", kCounts.of(feature.count_by)},
                 {"indexes", Json::array()}};
    for (int position = 1; position <= feature.count(); ++position) json["indexes"].push_back(index(feature, position));
    return json;
  }

 private:
  std::string_view state_at(const Place& place) const {
    if (suspects_.contains(place)) return "suspect";
    return counts_.contains(place) || satisfied(engine_, place) ? "read" : "unread";
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
    std::size_t read = 0, suspect = 0;
    for (const Place& place : places) {
      const std::string_view state = state_at(place);
      suspect += state == "suspect" ? 1U : 0U;
      read += counts_.contains(place) ? 1U : 0U;
      json["places"].push_back({{"level", place.level.empty() ? Json(nullptr) : Json(place.level)},
                                {"axis", place.axis.empty() ? Json(nullptr) : Json(place.axis)},
                                {"state", state}});
    }
    const std::string_view figure = figure_at(feature, position, read, places.size());
    json["state"] = suspect > 0 && figure != "out" ? "suspect" : figure;
    return json;
  }

  const Engine& engine_;
  const CountingMap counts_;
  const std::set<Place> suspects_;
};

}  // namespace

Json bench_plan(const Engine& engine) {
  const Planner planner(engine);
  Json plan = Json::array();
  for (const Feature& feature : engine.spec->features) plan.push_back(planner.feature(feature));
  return plan;
}

Json bench_layout(const Layout& layout) {
  return {{"cylinders", or_null(layout.cylinders)},
          {"mains", or_null(layout.mains)},
          {"crankpins", or_null(layout.crankpins)},
          {"viewed_from", layout.viewed_from.empty() ? Json(nullptr) : Json(layout.viewed_from)},
          {"labels", layout.labels},
          {"main_labels", layout.main_labels},
          {"pins", layout.pins}};
}

}  // namespace tenth
