#include "schema/export/html/feature_section.hpp"

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

std::string pictures(const Results& results, const Feature& feature, const FeatureResults& indices, Unit unit) {
  const std::vector<Length> sizes = sizes_of(feature, results.counts);
  if (!has_outline(feature) || sizes.empty()) return "";
  const Enlargement scale = enlargement(feature, sizes);
  std::string figures;
  for (const FeatureResult* result : indices)
    figures += element("figure", element("figcaption", element("b", escaped(index_words(feature, *result))) + " " +
                                                           mark(result->verdict)) +
                                     outlines(feature, result->index, results.counts, scale, unit));
  return element("div class=\"outlines\"", figures) + legend(feature, scale);
}

std::string stage_words(const FeatureResult& result) {
  return escaped(result.stage + (result.carried ? " (carried over)" : ""));
}

std::string verdict_cell(const FeatureResult& result) {
  if (result.missing == 0) return mark(result.verdict);
  return mark(result.verdict) + " " + std::to_string(result.missing) + " to measure";
}

/// Sizes whose outline is drawn need no bar; form is null where it was not measured.
std::string rows_of(const Feature& feature, const FeatureResults& indices, Unit unit) {
  std::string rows;
  for (const FeatureResult* r : indices) {
    const std::string size_bar = bar({r->min, r->mean, r->max}, feature.limits, std::nullopt);
    if (has_outline(feature))
      rows += table_row({escaped(r->label), figure(r->min, unit), figure(r->mean, unit), figure(r->max, unit),
                         figure(r->out_of_round, unit), figure(r->taper, unit), stage_words(*r), verdict_cell(*r)});
    else
      rows += table_row({escaped(r->label), figure(r->min, unit), figure(r->mean, unit), figure(r->max, unit),
                         figure(r->taper, unit), size_bar, stage_words(*r), verdict_cell(*r)});
  }
  if (has_outline(feature))
    return table("figures", {"No.", "least", "mean", "greatest", "out of round", "taper", "stage", "verdict"}, rows);
  return table("figures", {"No.", "least", "mean", "greatest", "taper", "against the limits", "stage", "verdict"},
               rows);
}

}  // namespace

std::string feature_section(const Results& results, const Feature& feature) {
  const Unit unit = results.engine.spec->unit;
  FeatureResults indices;
  for (const FeatureResult& result : results.report.features)
    if (result.feature == feature.name) indices.push_back(&result);
  if (feature.kind == Kind::check || indices.empty()) return "";
  return element("section class=\"part\"", element("h3", escaped(heading(feature.name))) + asked_words(feature, unit) +
                                               pictures(results, feature, indices, unit) +
                                               rows_of(feature, indices, unit));
}

}  // namespace tenth::page
