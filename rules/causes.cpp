#include "rules/causes.hpp"

#include <utility>

#include "rules/figure.hpp"

namespace tenth {

Cause cause_of(AlertWhat what, std::string subject) {
  Cause cause;
  cause.what = what;
  cause.severity = what == AlertWhat::out ? Severity::stop : Severity::look;
  cause.subject = std::move(subject);
  return cause;
}

std::string subject_of(const std::string& name, const Feature& feature, int index) {
  return feature.count() > 1 ? name + " " + label_of(feature, index) : name;
}

std::string joined(const std::vector<std::string>& words, std::string_view between) {
  std::string result;
  for (const std::string& word : words) {
    if (!result.empty()) result += between;
    result += word;
  }
  return result;
}

std::vector<Cause> causes(const Engine& engine, const Report& report) {
  std::vector<Cause> all = figure_causes(engine, report);
  for (const auto& some : {suspect_causes(engine), early_causes(engine)})
    all.insert(all.end(), some.begin(), some.end());
  for (Cause& cause : all) cause.engine = engine.name;
  return all;
}

}  // namespace tenth
