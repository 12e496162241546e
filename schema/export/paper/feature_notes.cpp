#include "schema/export/paper/feature_notes.hpp"

#include <array>
#include <charconv>

#include "rules/place.hpp"
#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

std::string rounded(double value) {
  std::array<char, 32> out{};
  return {out.data(), std::to_chars(out.data(), out.data() + out.size(), value, std::chars_format::fixed, 2).ptr};
}

std::string outlier_words(const Outlying& outlier, const Spec& spec) {
  return "Reading " + std::to_string(outlier.seq) + ", " + spaced(spoken(outlier.place, spec)) + ", " +
         whole_figure(outlier.size, spec.unit) + ": does not fit the other " + std::to_string(outlier.among - 1) +
         " repeats there (" + rounded(outlier.distance) +
         " standard deviations from their mean; an outlier at 5 % from " + rounded(outlier.critical) +
         " on). It counts all the same, for only a person sets a reading aside.";
}

std::optional<Block> outliers_of(const Results& results, const std::string& feature) {
  Items items;
  for (const Outlying& outlier : results.outliers)
    if (outlier.place.feature == feature) items.sentences.push_back(outlier_words(outlier, *results.engine.spec));
  return items.sentences.empty() ? std::nullopt : std::optional<Block>(std::move(items));
}

/// The table of the parts that came back, with the sentence above it.
std::vector<Block> returned_of(const Results& results, const std::string& feature) {
  const Unit unit = results.engine.spec->unit;
  Table table{
      Density::figures, {{"No."}, {"least", Manner::number}, {"greatest", Manner::number}, {"as asked for"}}, {}};
  std::string asked;
  for (const Returned& part : results.returned)
    if (part.feature == feature) {
      asked = "Came back from " + part.to + ", asked for " + figure(part.asked.size, unit) + " within " +
              figure(part.asked.within, unit) + ". Measured since:";
      table.rows.push_back({part.label, figure(part.min, unit), figure(part.max, unit), mark(part.verdict)});
    }
  if (table.rows.empty()) return {};
  return {said(asked, Tone::asked), std::move(table)};
}

/// As it looks from the side, the first level above.
std::string_view sign(tenth::Shape shape) {
  switch (shape) {
    case tenth::Shape::straight:
      return "| |";
    case tenth::Shape::first_wider:
      return "\\ /";
    case tenth::Shape::last_wider:
      return "/ \\";
    case tenth::Shape::barrel:
      return "( )";
    case tenth::Shape::waist:
      return ") (";
  }
  return "";
}

}  // namespace

std::vector<Block> feature_notes(const Results& results, const Feature& feature) {
  std::vector<Block> blocks = returned_of(results, feature.name);
  if (auto outliers = outliers_of(results, feature.name)) blocks.push_back(std::move(*outliers));
  return blocks;
}

std::string shape_words(const FeatureResult& result, Unit unit) {
  if (!result.shape_asked || !result.shape) return "";
  const FoundShape& found = *result.shape;
  const bool bellied = found.shape == tenth::Shape::barrel || found.shape == tenth::Shape::waist;
  const Length by = bellied ? found.belly->magnitude() : found.taper.magnitude();
  std::string words = std::string(sign(found.shape)) + " " + spaced(name(found.shape));
  if (by != Length()) words += " " + figure(by, unit);
  return words + (found.shape == *result.shape_asked ? "" : ", meant " + spaced(name(*result.shape_asked)));
}

}  // namespace tenth::paper
