#include "schema/export/paper/readings.hpp"

#include <algorithm>
#include <set>

#include "rules/joined.hpp"
#include "rules/words.hpp"
#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

Piece state_piece(const Reading& reading, bool counts) {
  std::string state(name(reading.state));
  if (reading.state == State::kept && !counts) state += ", replaced";
  return {state, reading.state == State::kept ? Face::plain : Face::bold};
}

std::string remarks(const Reading& reading) {
  std::vector<std::string> all;
  for (const Doubt doubt : reading.doubts) all.emplace_back(plainly(doubt));
  if (reading.overdue && std::ranges::find(reading.doubts, Doubt::overdue) == reading.doubts.end())
    all.emplace_back(plainly(Doubt::overdue));
  if (!reading.claimed_by.empty()) all.push_back("claimed by " + reading.claimed_by);
  if (!reading.measured_at.empty()) all.push_back("measured " + day_of(reading.measured_at));
  if (!reading.note.empty()) all.push_back("note: " + reading.note);
  if (reading.reason) all.push_back("reason: " + *reading.reason);
  return all.empty() ? " " : joined(all, "; ");
}

/// Which of the columns that not every engine needs its table has.
struct Extra {
  bool mm = false;      ///< the spec is in inches
  bool at_20c = false;  ///< of some reading that is known
};

Extra extra_of(const Engine& engine) {
  return {engine.spec->unit == Unit::in,
          std::ranges::any_of(engine.readings, [](const Reading& r) { return r.size_20c.has_value(); })};
}

std::string mm_text(const std::optional<Length>& length) {
  return length ? exact_mm(*length) : std::string();
}

Cells cells_of(const Reading& r, const Engine& engine, const Extra& extra, bool counts) {
  Cells cells = {std::to_string(r.seq),
                 time_of_day(r.time),
                 r.place ? spaced(spoken(*r.place, *engine.spec)) : std::string("no place"),
                 r.stage,
                 r.operator_name.value_or(""),
                 gauge_words(r),
                 Piece{r.raw, Face::typed},
                 whole_figure(r.size, engine.spec->unit)};
  if (extra.mm) cells.emplace_back(mm_text(r.size));
  if (extra.at_20c) cells.emplace_back(mm_text(r.size_20c));
  cells.emplace_back(state_piece(r, counts));
  cells.emplace_back(remarks(r));
  return cells;
}

std::vector<Column> columns_of(const Extra& extra) {
  std::vector<Column> columns = {
      {"entry"}, {"UTC"}, {"place"}, {"stage"}, {"who"}, {"gauge"}, {"as received", Manner::raw}, {"size"}};
  if (extra.mm) columns.push_back({"in mm"});
  if (extra.at_20c) columns.push_back({"mm at 20 °C"});
  columns.insert(columns.end(), {{"state"}, {"doubts and reasons", Manner::note}});
  return columns;
}

}  // namespace

Part readings_part(const Engine& engine) {
  std::set<std::int64_t> counts;
  for (const auto& [place, counting] : counting(engine)) counts.insert(counting.seqs.begin(), counting.seqs.end());
  const Extra extra = extra_of(engine);
  Table table{Density::list, columns_of(extra), {}};
  std::string day;
  for (const Reading& reading : engine.readings) {
    if (day_of(reading.time) != day) table.rows.push_back({day = day_of(reading.time)});
    table.rows.push_back(cells_of(reading, engine, extra, counts.contains(reading.seq)));
  }
  if (table.rows.empty()) return {"", {said("No readings.")}};
  return {"", {std::move(table)}};
}

}  // namespace tenth::paper
