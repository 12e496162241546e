#include "schema/export/paper/feature_part.hpp"

#include <algorithm>
#include <set>

#include "schema/export/paper/bar.hpp"
#include "schema/export/paper/feature_notes.hpp"
#include "schema/export/paper/outline.hpp"
#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

using FeatureResults = std::vector<const FeatureResult*>;

std::string form_words(const char* what, const std::optional<Length>& limit, std::string_view by, Unit unit) {
  if (!limit) return "";
  return std::string("; ") + what + " at most " + whole_figure(limit, unit) + " (" + spaced(by) + ")";
}

std::string index_words(const Feature& feature, const FeatureResult& result) {
  return feature.count() == 1 ? heading(feature.name) : heading(feature.name) + " " + result.label;
}

std::vector<Length> sizes_of(const Feature& feature, const CountingMap& counts) {
  std::vector<Length> sizes;
  for (const auto& [place, counting] : counts)
    if (place.feature == feature.name) sizes.push_back(counting.size);
  return sizes;
}

Paragraph legend(const Feature& feature, const Enlargement& scale) {
  std::string words =
      "Error shown " + std::to_string(scale.times) + " times. Black line: the outline through the sizes read. ";
  if (feature.limits.lower && feature.limits.upper)
    words += "Grey ring between thin circles: the limits. ";
  else if (feature.limits.any())
    words += "Thin circle: the limit. ";
  return said(words + "Dot: as read, within the limits; crossed square: beyond a limit.", Tone::legend);
}

/// Rows as even as can be, of at most seven, so that every picture stays large enough to read on paper.
int pictures_in_a_row(int count) {
  constexpr int kMost = 7, kFewest = 4;
  const int rows = (count + kMost - 1) / kMost;
  return std::max((count + rows - 1) / rows, kFewest);
}

void add_pictures(Part& part, const Results& results, const Feature& feature, const FeatureResults& indices) {
  const std::vector<Length> sizes = sizes_of(feature, results.counts);
  if (!has_outline(feature) || sizes.empty()) return;
  const Enlargement scale = enlargement(feature, sizes);
  Pictures pictures{pictures_in_a_row(feature.count()), {}};
  for (const FeatureResult* result : indices)
    pictures.pictures.push_back({{{index_words(feature, *result) + " ", Face::bold}, mark(result->verdict)},
                                 outlines(feature, result->index, results.counts, scale, results.engine.spec->unit)});
  part.blocks.emplace_back(std::move(pictures));
  part.blocks.emplace_back(legend(feature, scale));
}

/// The verdict, what is not in, and what is missing.
Line verdict_line(const FeatureResult& result) {
  std::set<std::string> against;
  for (const Reason& reason : result.reasons)
    if (reason.verdict == Verdict::out || reason.verdict == Verdict::doubtful) against.insert(spaced(reason.what));
  if (lacks_setup(result)) against.insert("set up not said");
  std::string words;
  for (const std::string& what : against) words += (words.empty() ? " " : ", ") + what;
  if (result.missing > 0) words += (words.empty() ? " " : ", ") + std::to_string(result.missing) + " to measure";
  return {mark(result.verdict), {words}};
}

std::string stage_words(const FeatureResult& result) {
  return result.stage + (result.carried ? " (carried over)" : "") + (result.corrected ? ", at 20 °C" : "");
}

std::vector<Column> columns_of(const Feature& feature) {
  std::vector<Column> columns = {{"No."}};
  if (feature.levels.empty() && feature.axes.empty())
    columns.push_back({"size", Manner::number});
  else
    columns.insert(columns.end(), {{"least", Manner::number}, {"mean", Manner::number}, {"greatest", Manner::number}});
  if (feature.axes.size() > 1) columns.push_back({"out of round"});
  if (feature.levels.size() > 1) columns.push_back({"taper"});
  if (feature.shape) columns.push_back({"shape"});
  if (!has_outline(feature)) columns.push_back({"against the limits", Manner::picture});
  columns.insert(columns.end(), {{"stage"}, {"verdict"}});
  return columns;
}

Cells cells_of(const Feature& feature, const FeatureResult& r, Unit unit) {
  Cells cells = {r.label};
  if (feature.levels.empty() && feature.axes.empty())
    cells.emplace_back(figure(r.mean, unit));
  else
    for (const auto& size : {r.min, r.mean, r.max}) cells.emplace_back(figure(size, unit));
  if (feature.axes.size() > 1) cells.emplace_back(figure(r.out_of_round, unit));
  if (feature.levels.size() > 1) cells.emplace_back(figure(r.taper, unit));
  if (feature.shape) cells.emplace_back(shape_words(r, unit));
  if (!has_outline(feature)) cells.emplace_back(bar({r.min, r.mean, r.max}, feature.limits, std::nullopt));
  cells.emplace_back(stage_words(r));
  cells.emplace_back(verdict_line(r));
  return cells;
}

}  // namespace

std::string asked_words(const Feature& feature, Unit unit) {
  std::string asked = "Asked for: ";
  if (!feature.size_text.empty()) asked += feature.size_text + ", ";
  asked += limits_words(feature.limits, unit);
  asked += form_words("out of round", feature.out_of_round, name(feature.out_of_round_by), unit);
  asked += form_words("taper", feature.taper, name(feature.taper_by), unit);
  if (feature.shape) asked += "; shape meant: " + spaced(name(*feature.shape));
  if (!feature.setup.empty()) asked += ". Set up: " + feature.setup;
  if (!feature.where.empty()) asked += ". Measured: " + feature.where;
  if (!feature.source.empty()) asked += ". Limits from: " + feature.source;
  return asked + ".";
}

Part feature_part(const Results& results, const Feature& feature) {
  const Unit unit = results.engine.spec->unit;
  FeatureResults indices;
  for (const FeatureResult& result : results.report.features)
    if (result.feature == feature.name) indices.push_back(&result);
  Part part{heading(feature.name), {}};
  if (feature.kind == Kind::check || indices.empty()) return part;
  part.blocks.emplace_back(said(asked_words(feature, unit), Tone::asked));
  add_pictures(part, results, feature, indices);
  Table table{Density::figures, columns_of(feature), {}};
  for (const FeatureResult* result : indices) table.rows.push_back(cells_of(feature, *result, unit));
  part.blocks.emplace_back(std::move(table));
  for (Block& note : feature_notes(results, feature)) part.blocks.push_back(std::move(note));
  return part;
}

}  // namespace tenth::paper
