#include "schema/export/paper/readings.hpp"

#include <algorithm>
#include <set>

#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

Piece state_piece(const Reading& reading, bool counts) {
  std::string state(name(reading.state));
  if (reading.state == State::kept && !counts) state += ", replaced";
  return {state, reading.state == State::kept ? Face::plain : Face::bold};
}

std::string remarks(const Reading& reading) {
  std::string out;
  for (const Doubt doubt : reading.doubts) out += (out.empty() ? "" : "; ") + doubt_words(doubt);
  if (reading.overdue && std::ranges::find(reading.doubts, Doubt::overdue) == reading.doubts.end())
    out += (out.empty() ? "" : "; ") + doubt_words(Doubt::overdue);
  if (reading.reason) out += (out.empty() ? "" : "; ") + ("reason: " + *reading.reason);
  return out.empty() ? " " : out;
}

Cells cells_of(const Reading& r, const Engine& engine, bool counts) {
  const Unit unit = engine.spec->unit;
  Cells cells = {std::to_string(r.seq),
                 time_of_day(r.time),
                 r.place ? spaced(spoken(*r.place, *engine.spec)) : std::string("no place"),
                 r.stage,
                 r.operator_name.value_or(""),
                 r.gauge.value_or("by hand"),
                 Piece{r.raw, Face::typed},
                 whole_figure(r.size, unit)};
  if (unit == Unit::in) cells.emplace_back(r.size ? exact_mm(*r.size) : std::string());
  cells.emplace_back(state_piece(r, counts));
  cells.emplace_back(remarks(r));
  return cells;
}

std::vector<Column> columns_of(Unit unit) {
  std::vector<Column> columns = {
      {"entry"}, {"UTC"}, {"place"}, {"stage"}, {"who"}, {"gauge"}, {"as received", Manner::raw}, {"size"}};
  if (unit == Unit::in) columns.push_back({"in mm"});
  columns.insert(columns.end(), {{"state"}, {"doubts and reasons", Manner::note}});
  return columns;
}

}  // namespace

Part readings_part(const Engine& engine) {
  std::set<std::int64_t> counts;
  for (const auto& [place, counting] : counting(engine)) counts.insert(counting.seqs.begin(), counting.seqs.end());
  Table table{Density::list, columns_of(engine.spec->unit), {}};
  std::string day;
  for (const Reading& reading : engine.readings) {
    if (day_of(reading.time) != day) table.rows.push_back({day = day_of(reading.time)});
    table.rows.push_back(cells_of(reading, engine, counts.contains(reading.seq)));
  }
  if (table.rows.empty()) return {"", {said("No readings.")}};
  return {"", {std::move(table)}};
}

}  // namespace tenth::paper
