#include "schema/export/html/feature_section.hpp"

#include <algorithm>
#include <set>

#include "schema/export/html/bar.hpp"
#include "schema/export/html/markup.hpp"
#include "schema/export/html/outline.hpp"
#include "schema/export/html/words.hpp"

namespace tenth::page {
namespace {

using FeatureResults = std::vector<const FeatureResult*>;

std::string form_words(const char* what, const std::optional<Length>& limit, std::string_view by, Unit unit) {
  if (!limit) return "";
  return std::string("; ") + what + " at most " + figure(limit, unit) + " (" + spaced(by) + ")";
}

std::string asked_words(const Feature& feature, Unit unit) {
  std::string asked = "Asked for: ";
  if (!feature.size_text.empty()) asked += feature.size_text + ", ";
  asked += limits_words(feature.limits, unit);
  asked += form_words("out of round", feature.out_of_round, name(feature.out_of_round_by), unit);
  asked += form_words("taper", feature.taper, name(feature.taper_by), unit);
  if (!feature.where.empty()) asked += ". Measured: " + feature.where;
  if (!feature.source.empty()) asked += ". Limits from: " + feature.source;
  return element("p class=\"asked\"", escaped(asked + "."));
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

std::string legend(const Feature& feature, const Enlargement& scale) {
  std::string words = "Error shown " + std::to_string(scale.times) +
                      " times. Black line: the outline through the sizes "
                      "read. ";
  if (feature.limits.lower && feature.limits.upper)
    words += "Grey ring between thin circles: the limits. ";
  else if (feature.limits.any())
    words += "Thin circle: the limit. ";
  return element("p class=\"legend\"", words + "Dot: as read, within the limits; crossed square: beyond a limit.");
}

/// Rows as even as can be, of at most seven, so that every picture stays large enough to read on paper.
int pictures_in_a_row(int count) {
  constexpr int kMost = 7, kFewest = 4;
  const int rows = (count + kMost - 1) / kMost;
  return std::max((count + rows - 1) / rows, kFewest);
}

std::string pictures(const Results& results, const Feature& feature, const FeatureResults& indices, Unit unit) {
  const std::vector<Length> sizes = sizes_of(feature, results.counts);
  if (!has_outline(feature) || sizes.empty()) return "";
  const Enlargement scale = enlargement(feature, sizes);
  std::string figures;
  for (const FeatureResult* result : indices)
    figures += element("figure", element("figcaption", element("b", escaped(index_words(feature, *result))) + " " +
                                                           mark(result->verdict)) +
                                     outlines(feature, result->index, results.counts, scale, unit));
  const std::string columns = std::to_string(pictures_in_a_row(feature.count()));
  return element("div class=\"outlines\" style=\"--columns:" + columns + "\"", figures) + legend(feature, scale);
}

/// The verdict, what is not in, and what is missing.
std::string verdict_cell(const FeatureResult& result) {
  std::set<std::string> against;
  for (const Reason& reason : result.reasons)
    if (reason.verdict == Verdict::out || reason.verdict == Verdict::doubtful) against.insert(spaced(reason.what));
  std::string words;
  for (const std::string& what : against) words += (words.empty() ? " " : ", ") + what;
  if (result.missing > 0) words += (words.empty() ? " " : ", ") + std::to_string(result.missing) + " to measure";
  return mark(result.verdict) + escaped(words);
}

std::string figures_table(const Feature& feature, const FeatureResults& indices, Unit unit) {
  const bool one_place = feature.levels.empty() && feature.axes.empty();
  std::vector<Column> columns = {{"No.", ""}};
  if (one_place)
    columns.push_back({"size", "number"});
  else
    columns.insert(columns.end(), {{"least", "number"}, {"mean", "number"}, {"greatest", "number"}});
  if (feature.axes.size() > 1) columns.push_back({"out of round", ""});
  if (feature.levels.size() > 1) columns.push_back({"taper", ""});
  if (!has_outline(feature)) columns.push_back({"against the limits", "wide"});
  columns.insert(columns.end(), {{"stage", ""}, {"verdict", ""}});
  std::vector<Cells> rows;
  for (const FeatureResult* r : indices) {
    Cells cells = {escaped(r->label)};
    if (one_place)
      cells.push_back(figure(r->mean, unit));
    else
      cells.insert(cells.end(), {figure(r->min, unit), figure(r->mean, unit), figure(r->max, unit)});
    if (feature.axes.size() > 1) cells.push_back(figure(r->out_of_round, unit));
    if (feature.levels.size() > 1) cells.push_back(figure(r->taper, unit));
    if (!has_outline(feature)) cells.push_back(bar({r->min, r->mean, r->max}, feature.limits, std::nullopt));
    cells.push_back(escaped(r->stage + (r->carried ? " (carried over)" : "")));
    cells.push_back(verdict_cell(*r));
    rows.push_back(std::move(cells));
  }
  return table("figures", columns, rows);
}

}  // namespace

std::string feature_section(const Results& results, const Feature& feature) {
  const Unit unit = results.engine.spec->unit;
  FeatureResults indices;
  for (const FeatureResult& result : results.report.features)
    if (result.feature == feature.name) indices.push_back(&result);
  if (feature.kind == Kind::check || indices.empty()) return "";
  return element(
      "section class=\"part\"",
      element("div class=\"together\"", element("h3", escaped(heading(feature.name))) + asked_words(feature, unit) +
                                            pictures(results, feature, indices, unit)) +
          figures_table(feature, indices, unit));
}

}  // namespace tenth::page
