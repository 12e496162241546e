#include <algorithm>

#include "rules/figure.hpp"
#include "rules/place.hpp"
#include "schema/export/paper/feature_part.hpp"
#include "schema/export/paper/headline.hpp"
#include "schema/export/paper/papers.hpp"
#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

// Features and places stand in the words that `enter` and `import` know, and columns are named as `import` names them.

std::vector<Column> columns_of(const Feature& feature) {
  std::vector<Column> columns = {{"index"}};
  if (!feature.levels.empty()) columns.push_back({"level"});
  if (!feature.axes.empty()) columns.push_back({"axis"});
  columns.push_back({"limits"});
  for (const char* head : {"value", "unit", "gauge", "operator", "time"}) columns.push_back({head, Manner::hand});
  return columns;
}

Cells cells_of(const Feature& feature, const Place& place, Unit unit) {
  Cells cells = {label_of(feature, place.index)};
  if (!feature.levels.empty()) cells.emplace_back(place.level);
  if (!feature.axes.empty()) cells.emplace_back(place.axis);
  cells.emplace_back(limits_words(feature.limits, unit));
  cells.resize(columns_of(feature).size());
  return cells;
}

Table answers_of(const Feature& feature) {
  Table table{Density::form,
              {{"index"}, {"answer"}, {"note", Manner::hand}, {"operator", Manner::hand}, {"time", Manner::hand}},
              {}};
  const Line answer = {{"yes ", Face::plain, Sign::box},
                       {"no ", Face::plain, Sign::box},
                       {"later ", Face::plain, Sign::box},
                       {"n/a", Face::plain, Sign::box}};
  for (const std::string& label : feature.labels) table.rows.push_back({label, answer, {}, {}, {}});
  return table;
}

/// A row for every press that is asked for.
Table places_table(const Feature& feature, Unit unit) {
  Table table{Density::form, columns_of(feature), {}};
  for (int index = 1; index <= feature.count(); ++index)
    for (const Place& place : places_of(feature, index))
      for (int press = 0; press < feature.presses; ++press) table.rows.push_back(cells_of(feature, place, unit));
  return table;
}

Part part_of(const Feature& feature, Unit unit) {
  if (feature.kind == Kind::check)
    return {
        feature.name,
        {said(feature.where.empty() ? "A check." : heading(feature.where) + ".", Tone::asked), answers_of(feature)}};
  return {feature.name, {said(asked_words(feature, unit), Tone::asked), places_table(feature, unit)}};
}

Part settings_part() {
  constexpr std::size_t kRows = 8;
  Table table{Density::form, {}, {}};
  for (const char* head : {"gauge", "master", "shows", "operator", "time"})
    table.columns.push_back({head, Manner::hand});
  table.rows.assign(kRows, Cells(table.columns.size()));
  return {"",
          {said("Each gauge on its master before the first reading and after the last, as it shows it there."),
           std::move(table)}};
}

}  // namespace

Paper worksheet(const Bench& bench, const Engine& engine, const Head& head) {
  const Spec& spec = *engine.spec;
  Paper paper{"Worksheet", engine.name, spec.title, printed(head), bench.time, {}, {}};
  paper.top = {facts_of(spec, bench.time),
               Paragraph{{{"For a day without the machine: write down what every gauge shows, in which unit, who read "
                           "it and when. Afterwards each is typed in with "},
                          {"tenth enter", Face::typed},
                          {", or all of them, as a table with the columns feature, index, level, axis, value, unit, "
                           "time, operator, gauge and note, brought in with "},
                          {"tenth import FILE", Face::typed},
                          {"."}}},
               Signatures{{"Measured by"}}};
  Act places{"To measure", "in the order of the round", {}};
  for (const Feature& feature : spec.features) places.parts.push_back(part_of(feature, spec.unit));
  paper.acts = {{"Gauges", "set and checked", {settings_part()}}, std::move(places)};
  return paper;
}

}  // namespace tenth::paper
