#include <gtest/gtest.h>

#include <algorithm>

#include "html_support.hpp"
#include "pdf_support.hpp"
#include "rules/place.hpp"
#include "sample_bench.hpp"
#include "schema/export/exports.hpp"
#include "schema/export/paper/papers.hpp"

namespace tenth {
namespace {

paper::Paper worksheet_of(const Bench& bench) {
  return paper::worksheet(bench, bench.engines.at(sample::kEngine), {bench.seq, sha256("head")});
}

const paper::Table& table_of(const paper::Part& part) {
  return std::get<paper::Table>(part.blocks.back());
}

/// What stands in a row under a column, or nothing.
std::string under(const paper::Table& table, const paper::Cells& row, const std::string& head) {
  const auto column = std::ranges::find(table.columns, head, &paper::Column::head);
  if (column == table.columns.end()) return "";
  const paper::Line& line = row.at(static_cast<std::size_t>(column - table.columns.begin())).line;
  return line.empty() ? "" : line.front().text;
}

TEST(Worksheet, NamesEveryPlaceOfTheRoundInItsOrderAndInWordsThatAreUnderstood) {
  const Bench bench = sample::bench();
  const Spec& spec = *bench.engines.at(sample::kEngine).spec;
  const paper::Paper paper = worksheet_of(bench);
  std::vector<Place> places;
  for (const paper::Part& part : paper.acts.at(1).parts) {
    const paper::Table& table = table_of(part);
    for (const paper::Cells& row : table.rows) {
      std::vector<std::string> words = {part.title};
      for (const char* head : {"index", "level", "axis"})
        if (const std::string word = under(table, row, head); !word.empty()) words.push_back(word);
      places.push_back(find_place(spec, words).value());
    }
  }
  EXPECT_EQ(places, round_order(spec, {}).value());
}

TEST(Worksheet, HasLimitsAndRoomForWhatImportAsksFor) {
  const paper::Paper paper = worksheet_of(sample::bench());
  const paper::Table& bores = table_of(paper.acts.at(1).parts.at(0));
  EXPECT_EQ(under(bores, bores.rows.at(0), "limits"), "83.000 to 83.035");
  std::vector<std::string> free;
  for (const paper::Column& column : bores.columns)
    if (column.manner == paper::Manner::hand) free.push_back(column.head);
  EXPECT_EQ(free, (std::vector<std::string>{"value", "unit", "gauge", "operator", "time"}));
  for (const paper::Cells& row : bores.rows)
    for (const std::string& head : free) EXPECT_EQ(under(bores, row, head), "") << "blank, whatever was measured";
}

TEST(Worksheet, AsksForEveryPress) {
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  Spec spec = *engine.spec;
  spec.features[1].presses = 3;
  engine.spec = std::make_shared<const Spec>(spec);
  const paper::Paper paper = worksheet_of(bench);
  EXPECT_EQ(table_of(paper.acts.at(1).parts.at(1)).rows.size(), 18U);
}

TEST(Worksheet, HasBoxesForChecksAndBearsHeadAndDate) {
  const Bench bench = sample::bench();
  const PdfFile file(pdf(worksheet_of(bench), paper::Sheet::a4));
  const std::string text = file.text();
  EXPECT_TRUE(has(text, "oil_feed_clear")) << text;
  for (const char* part : {"yes", "no", "later", "n/a", "Measured by", "date", "tenth import FILE"})
    EXPECT_TRUE(has(text, part));
  EXPECT_EQ(times(text, printed({bench.seq, sha256("head")})), static_cast<std::size_t>(file.pages()));
  const std::string page = html(worksheet_of(bench));
  EXPECT_EQ(unbalanced(page), "");
  EXPECT_EQ(times(page, "<svg class=\"sign\""), 4U);
  EXPECT_TRUE(has(page, "<td class=\"hand\"></td>"));
}

}  // namespace
}  // namespace tenth
