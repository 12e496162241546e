#include "rules/statistics/crossed.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <set>
#include <tuple>

#include "rules/nearest.hpp"

namespace tenth::statistics {
namespace {

using Place = std::tuple<int, std::string, int>;

std::string named(const Place& place) {
  const auto& [part, operator_name, trial] = place;
  return "part " + std::to_string(part) + ", operator " + quoted(operator_name) + ", trial " + std::to_string(trial);
}

Result<std::map<Place, double>> by_place(std::span<const StudyReading> readings) {
  std::map<Place, double> places;
  for (const auto& [part, operator_name, trial, value] : readings) {
    const auto [at, added] = places.insert({{part, operator_name, trial}, value});
    if (!added) return refuse("twice", named(at->first) + " is there twice", "void one of the two readings");
  }
  return places;
}

Result<void> enough(std::size_t count, std::string_view what) {
  if (count >= 2) return {};
  return refuse("too_few", "a study with fewer than two " + std::string(what) + " is too little data",
                "plan at least two " + std::string(what));
}

}  // namespace

Values Crossed::cell(std::size_t part, std::size_t by) const {
  return all().subspan((part * operators() + by) * trials_, trials_);
}

std::vector<double> Crossed::of_part(std::size_t part) const {
  const Values found = all().subspan(part * operators() * trials_, operators() * trials_);
  return {found.begin(), found.end()};
}

std::vector<double> Crossed::of_operator(std::size_t by) const {
  std::vector<double> found;
  for (std::size_t part = 0; part < parts_; ++part) {
    const Values some = cell(part, by);
    found.insert(found.end(), some.begin(), some.end());
  }
  return found;
}

Result<Crossed> crossed(std::span<const StudyReading> readings) {
  TENTH_TRY(const auto places, by_place(readings));
  std::set<int> parts, trials;
  std::set<std::string> names;
  for (const auto& [place, value] : places) {
    parts.insert(std::get<0>(place));
    names.insert(std::get<1>(place));
    trials.insert(std::get<2>(place));
  }
  for (const auto& [count, what] :
       {std::pair(parts.size(), "parts"), std::pair(names.size(), "operators"), std::pair(trials.size(), "trials")})
    if (auto fine = enough(count, what); !fine) return tl::unexpected(fine.error());
  Crossed study;
  study.parts_ = parts.size();
  study.trials_ = trials.size();
  study.names_.assign(names.begin(), names.end());
  study.numbers_.assign(parts.begin(), parts.end());
  for (const int part : parts)
    for (const auto& name : names)
      for (const int trial : trials) {
        const auto found = places.find({part, name, trial});
        if (found == places.end())
          return refuse("missing", named({part, name, trial}) + " has no reading",
                        "measure it: a study counts as a whole");
        study.values_.push_back(found->second);
      }
  if (auto fine = usable(study.values_, 1, "a study"); !fine) return tl::unexpected(fine.error());
  if (std::ranges::adjacent_find(study.values_, std::not_equal_to{}) == study.values_.end())
    return refuse("no_variation", "every reading of the study is the same", "take parts that differ, or a finer gauge");
  for (const double x : study.values_) study.largest_ = std::max(study.largest_, std::abs(x));
  for (const double first = study.values_.front(); double& x : study.values_) x -= first;
  return study;
}

}  // namespace tenth::statistics
