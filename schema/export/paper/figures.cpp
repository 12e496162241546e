#include "schema/export/paper/figures.hpp"

#include <functional>

#include "schema/export/paper/words.hpp"
#include "schema/wire/views.hpp"

namespace tenth::paper {
namespace {

std::string text_of(const Json& value) {
  if (value.is_null()) return "";
  return value.is_string() ? value.get<std::string>() : canonical(value);
}

using Key = std::pair<const char*, const char*>;  ///< of the JSON, and the head of its column

/// One array of the report as a table; without rows no blocks.
Part part_of(const std::string& title, const Json& results, const std::function<std::string(const Json&)>& subject,
             const std::vector<Key>& keys) {
  if (results.empty()) return {title, {}};
  Table table{Density::list, {{"of"}}, {}};
  for (const auto& [key, head] : keys) table.columns.push_back({head});
  for (const Json& result : results) {
    Cells cells = {subject(result)};
    for (const auto& [key, head] : keys) cells.emplace_back(text_of(result.at(key)));
    table.rows.push_back(std::move(cells));
  }
  return {title, {std::move(table)}};
}

std::string feature_words(const Json& result) {
  return spaced(text_of(result.at("feature"))) + " " + text_of(result.at("label"));
}

std::string fit_words(const Json& result) {
  const std::string label = text_of(result.at("label")), mate = text_of(result.at("outside_label"));
  return spaced(text_of(result.at("fit"))) + " " + label + (mate.empty() || mate == label ? "" : " with " + mate);
}

std::string spread_words(const Json& result) {
  return spaced(text_of(result.at("feature")));
}

}  // namespace

std::vector<Part> figures_parts(const Report& report) {
  const Json json = report_json(report);
  std::vector<Part> parts = {part_of("Sizes and form", json.at("features"), feature_words,
                                     {{"min_mm", "least"},
                                      {"mean_mm", "mean"},
                                      {"max_mm", "greatest"},
                                      {"out_of_round_mm", "out of round"},
                                      {"taper_mm", "taper"},
                                      {"uncertainty_mm", "U"}}),
                             part_of("Clearances", json.at("fits"), fit_words,
                                     {{"min_mm", "least"},
                                      {"mean_mm", "mean"},
                                      {"max_mm", "greatest"},
                                      {"lower_mm", "lower limit"},
                                      {"upper_mm", "upper limit"},
                                      {"target_mm", "target"},
                                      {"uncertainty_mm", "U"},
                                      {"probability", "probability of conforming"}}),
                             part_of("Spreads", json.at("spreads"), spread_words,
                                     {{"spread_mm", "spread"}, {"limit_mm", "at most"}, {"uncertainty_mm", "U"}})};
  std::erase_if(parts, [](const Part& part) { return part.blocks.empty(); });
  if (parts.empty()) parts.push_back({"", {said("No figures.")}});
  return parts;
}

}  // namespace tenth::paper
