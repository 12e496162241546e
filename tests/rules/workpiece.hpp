#pragma once

#include <gtest/gtest.h>

#include <memory>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "rules/judge.hpp"
#include "tests/rules/printing.hpp"

namespace tenth::testing {

/// A length as people type it; bare numbers are millimetres.
inline Length len(std::string_view text) {
  const auto length = parse_length(text, Unit::mm);
  if (!length) throw std::invalid_argument(length.error().message);
  return *length;
}

inline Limits limits(std::string_view lower, std::string_view upper) {
  Limits result;
  if (!lower.empty()) result.lower = len(lower);
  if (!upper.empty()) result.upper = len(upper);
  return result;
}

/// "bore/1/top/thrust"; what the feature lacks is left empty.
inline Place at(const std::string& slashed) {
  std::istringstream parts(slashed);
  Place place;
  std::string index;
  std::getline(parts, place.feature, '/');
  if (std::getline(parts, index, '/')) place.index = std::stoi(index);
  std::getline(parts, place.level, '/');
  std::getline(parts, place.axis, '/');
  return place;
}

/// A spec and the readings taken for it, put together in a few words.
class Workpiece {
 public:
  Spec spec;
  Engine engine;

  Feature& feature(const std::string& name, Kind kind, const Limits& limits, int count = 1) {
    Feature feature;
    feature.name = name;
    feature.kind = kind;
    feature.limits = limits;
    feature.labels.clear();
    for (int index = 1; index <= count; ++index) feature.labels.push_back(std::to_string(index));
    spec.features.push_back(std::move(feature));
    return spec.features.back();
  }

  /// Couples i with i.
  Fit& fit(const std::string& name, const std::string& inside, const std::string& outside, const Limits& limits) {
    Fit fit;
    fit.name = name;
    fit.inside = inside;
    fit.outside = outside;
    fit.limits = limits;
    for (int index = 1; index <= spec.find(inside)->count(); ++index) fit.couples.push_back({index, index, ""});
    spec.fits.push_back(std::move(fit));
    return spec.fits.back();
  }

  /// A kept reading in the feature's present stage.
  Reading& read(const std::string& place, Length size) {
    Reading reading;
    reading.seq = ++seq_;
    reading.place = at(place);
    reading.value = size;
    reading.size = size;
    const Stage& stage = stage_of(engine, reading.place->feature);
    reading.stage = stage.name;
    reading.stage_entry = stage.entry;
    engine.readings.push_back(std::move(reading));
    return engine.readings.back();
  }
  Reading& read(const std::string& place, std::string_view size) { return read(place, len(size)); }

  void begin_stage(const std::string& feature, const std::string& name, bool carry) {
    engine.stages[feature].push_back({name, ++seq_, carry});
  }

  /// Another part sits there from now on.
  void replace(const std::string& feature, int index) { engine.replaced[{feature, index}].push_back(++seq_); }

  const Engine& done() {
    engine.spec = std::make_shared<const Spec>(spec);
    return engine;
  }
  CountingMap counts() { return counting(done()); }
  FeatureResult judged(const std::string& name, int index = 1) {
    return judge_feature(done(), counts(), *spec.find(name), index);
  }
  FitResult fitted(std::size_t couple = 0) {
    const Fit& fit = spec.fits.front();
    return judge_fit(done(), counts(), fit, fit.couples[couple]);
  }
  SpreadResult spread() { return judge_spread(done(), counts(), spec.spreads.front()); }

 private:
  std::int64_t seq_ = 0;
};

}  // namespace tenth::testing
