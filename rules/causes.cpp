#include "rules/causes.hpp"

#include <utility>

#include "rules/figure.hpp"
#include "rules/words.hpp"

namespace tenth {
std::string shown(Length length, Unit unit) {
  return decimals(length, unit) + " " + std::string(name(unit));
}

std::string shown_past(Length past, Unit unit) {
  if (decimals(past, unit) == decimals(Length(), unit)) return exact_mm(past) + " mm";
  return shown(past, unit);
}

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

std::vector<Cause> causes(const Engine& engine, const Report& report) {
  std::vector<Cause> all = figure_causes(engine, report);
  for (const auto& some : {suspect_causes(engine), early_causes(engine), claim_causes(engine, report.counts)})
    all.insert(all.end(), some.begin(), some.end());
  for (Cause& cause : all) cause.engine = engine.name;
  return all;
}

}  // namespace tenth
