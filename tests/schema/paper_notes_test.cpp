#include <gtest/gtest.h>

#include "sample_bench.hpp"
#include "schema/export/paper/feature_notes.hpp"
#include "schema/export/paper/feature_part.hpp"

namespace tenth::paper {
namespace {

using sample::um;

class Notes : public testing::Test {
 protected:
  Engine& engine() { return bench_.engines.at(sample::kEngine); }
  Feature& feature(const std::string& name) {
    for (Feature& each : spec_.features)
      if (each.name == name) return each;
    throw std::runtime_error(name);
  }
  std::vector<Block> notes(const std::string& name) {
    const Results results = judged();
    return feature_notes(results, *engine().spec->find(name));
  }
  Part part(const std::string& name) {
    const Results results = judged();
    return feature_part(results, *engine().spec->find(name));
  }

 private:
  Results judged() {
    engine().spec = std::make_shared<const Spec>(spec_);
    return results_of(engine());
  }
  Bench bench_ = sample::bench();
  Spec spec_ = sample::spec();
};

std::string words_of(const Cell& cell) {
  std::string words;
  for (const Piece& piece : cell.line) words += piece.text;
  return words;
}

TEST_F(Notes, NameRepeatsThatDoNotFitTheOthers) {
  EXPECT_TRUE(notes("piston").empty());
  const Place place{"piston", 1, "", ""};
  for (std::int64_t n = 0; n < 6; ++n)
    engine().readings.push_back(sample::reading(1000 + n, place, um(n == 3 ? 82'980 : 82'950 + n)));
  const auto blocks = notes("piston");
  ASSERT_EQ(blocks.size(), 1U);
  const Items& items = std::get<Items>(blocks[0]);
  ASSERT_EQ(items.sentences.size(), 1U);
  EXPECT_TRUE(
      items.sentences[0].starts_with("Reading 1003, piston 1, 82.980: does not fit the other 6 repeats there ("))
      << items.sentences[0];
  EXPECT_TRUE(notes("bore").empty());
}

TEST_F(Notes, HoldWhatCameBackAgainstWhatWasAskedFor) {
  engine().sent["piston"] = {300,    "2026-03-04T10:00:00.000000Z", "the coater",
                             "coat", AskedSize{um(82'950), um(5)},  301};
  engine().readings.push_back(sample::reading(302, {"piston", 1, "", ""}, um(82'952)));
  engine().readings.push_back(sample::reading(303, {"piston", 2, "", ""}, um(82'990)));
  const auto blocks = notes("piston");
  ASSERT_EQ(blocks.size(), 2U);
  EXPECT_EQ(std::get<Paragraph>(blocks[0]).line[0].text,
            "Came back from the coater, asked for 82.950 within 0.005. Measured since:");
  const Table& table = std::get<Table>(blocks[1]);
  ASSERT_EQ(table.rows.size(), 6U);
  EXPECT_EQ(words_of(table.rows[0][1]), "82.952");
  EXPECT_EQ(words_of(table.rows[0][3]), "in");
  EXPECT_EQ(words_of(table.rows[1][3]), "out");
  EXPECT_EQ(words_of(table.rows[2][1]), "");
  EXPECT_EQ(words_of(table.rows[2][3]), "incomplete");
  engine().sent["piston"].received.reset();
  EXPECT_TRUE(notes("piston").empty());
}

FeatureResult found(tenth::Shape shape, Length taper, std::optional<Length> belly, tenth::Shape asked) {
  FeatureResult result;
  result.shape_asked = asked;
  result.shape = FoundShape{taper, belly, shape};
  return result;
}

TEST(ShapeWords, AreASignAWordAndASize) {
  using enum tenth::Shape;
  const auto said = [](const FeatureResult& result) { return shape_words(result, Unit::mm); };
  EXPECT_EQ(said(found(barrel, um(1), um(4), barrel)), "( ) barrel 0.004");
  EXPECT_EQ(said(found(waist, um(1), um(-4), barrel)), ") ( waist 0.004, meant barrel");
  EXPECT_EQ(said(found(first_wider, um(-7), um(4), first_wider)), "\\ / first wider 0.007");
  EXPECT_EQ(said(found(last_wider, um(7), std::nullopt, straight)), "/ \\ last wider 0.007, meant straight");
  EXPECT_EQ(said(found(straight, um(0), um(0), straight)), "| | straight");
  EXPECT_EQ(said(FeatureResult()), "");
}

TEST_F(Notes, AShapeHasAColumnWhereOneIsAskedFor) {
  const auto heads = [this] {
    std::string all;
    const Part bores = part("bore");
    for (const Block& block : bores.blocks)
      if (const Table* const table = std::get_if<Table>(&block))
        for (const Column& column : table->columns) all += column.head + ",";
    return all;
  };
  EXPECT_EQ(heads(), "No.,least,mean,greatest,out of round,taper,stage,verdict,");
  feature("bore").shape = tenth::Shape::straight;
  EXPECT_EQ(heads(), "No.,least,mean,greatest,out of round,taper,shape,stage,verdict,");
  EXPECT_NE(asked_words(feature("bore"), Unit::mm).find("; shape meant: straight"), std::string::npos);
}

TEST_F(Notes, ASetupThatWasNotSaidStandsBesideTheVerdict) {
  feature("bore").setup = "torque plates fitted";
  const Part bores = part("bore");
  const Table& table = std::get<Table>(bores.blocks.back());
  EXPECT_EQ(words_of(table.rows[1].back()), "incomplete set up not said");
  engine().set_up["bore"] = {0};
  const Part done = part("bore");
  EXPECT_EQ(words_of(std::get<Table>(done.blocks.back()).rows[1].back()), "in");
  EXPECT_NE(asked_words(feature("bore"), Unit::mm).find("Set up: torque plates fitted"), std::string::npos);
}

}  // namespace
}  // namespace tenth::paper
