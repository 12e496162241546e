#include "schema/wire/remedies_json.hpp"

#include <gtest/gtest.h>

namespace tenth {
namespace {

Length mm_of(const char* text) {
  return *parse_length(text, Unit::mm);
}

Remedy remedy(RemedyKind kind) {
  Remedy result;
  result.id = "r1";
  result.kind = kind;
  result.fit = "main_clearance";
  result.in = 2;
  result.of = 5;
  result.off_target = mm_of("0.0381");
  result.text = "what to do";
  return result;
}

Json made(const Remedy& of) {
  return remedies_json({"K31", 812, "", ""}, {{of}, {}, false})["remedies"][0];
}

TEST(RemediesJson, TheHeadNamesEngineLedgerAndStock) {
  const Json json = remedies_json({"K31", 812, "Shelf, 20 November", "abc"}, {});
  EXPECT_EQ(
      canonical(json),
      R"({"engine":"K31","none":[],"remedies":[],"seq":812,"stock":{"sha256":"abc","title":"Shelf, 20 November"}})");
  EXPECT_TRUE(remedies_json({"K31", 812, "", ""}, {})["stock"].is_null());
}

TEST(RemediesJson, Shells) {
  Remedy shells = remedy(RemedyKind::shells);
  shells.moved = 3;
  shells.halves = {{3, "3", Half::lower, "std-coated-lower", "more-clearance-lower"}};
  shells.after = {{3, mm_of("0.0584"), mm_of("0.0622"), mm_of("0.0660"), {}, Verdict::out, "L3"}};
  shells.cautions = {"measure again after fitting"};
  EXPECT_EQ(made(shells), Json::parse(R"({"id": "r1", "kind": "shells", "fit": "main_clearance", "undo": "free",
    "enough": false, "in": 2, "of": 5, "off_target_mm": 0.0381, "moved": 3,
    "steps": [{"index": 3, "label": "3", "half": "lower", "out": "std-coated-lower", "in": "more-clearance-lower"}],
    "after": [{"index": 3, "label": "L3", "min_mm": 0.0584, "mean_mm": 0.0622, "max_mm": 0.0660, "uncertainty_mm": null, "verdict": "out"}],
    "text": "what to do", "cautions": ["measure again after fitting"]})"));
}

TEST(RemediesJson, Grinding) {
  Remedy grind = remedy(RemedyKind::grind);
  grind.feature = "main_journal";
  grind.undo = Undo::never;
  grind.enough = true;
  grind.cuts = {{1, "1", mm_of("69.8373"), mm_of("69.8119"), mm_of("69.8068"), mm_of("69.8170"), mm_of("0.0254")}};
  const Json json = made(grind);
  EXPECT_EQ(json["steps"], Json::parse(R"([{"index": 1, "label": "1", "now_mm": 69.8373, "ask_mm": 69.8119,
                                            "low_mm": 69.8068, "high_mm": 69.8170, "off_mm": 0.0254}])"));
  EXPECT_EQ(json["feature"], "main_journal");
  EXPECT_EQ(json["undo"], "never");
  EXPECT_TRUE(json["undersize_mm"].is_null());
  EXPECT_EQ(json["shells"], Json::array());
  grind.undersize = mm_of("0.254");
  grind.halves = {{1, "1", Half::upper, "std", "ten"}};
  EXPECT_EQ(made(grind)["undersize_mm"], Json::parse("0.254"));
  EXPECT_EQ(made(grind)["shells"][0]["in"], "ten");
}

TEST(RemediesJson, HoningAndFilingKeepNoTolerance) {
  Remedy file = remedy(RemedyKind::file);
  file.fit = "";
  file.feature = "ring_gap_top";
  file.cuts = {{2, "b", mm_of("0.28"), mm_of("0.35"), mm_of("0.35"), mm_of("0.35"), mm_of("0.07")}};
  EXPECT_EQ(made(file)["steps"],
            Json::parse(R"([{"index": 2, "label": "b", "now_mm": 0.28, "ask_mm": 0.35, "off_mm": 0.07}])"));
  EXPECT_TRUE(made(file)["fit"].is_null());
  EXPECT_EQ(made(file)["feature"], "ring_gap_top");
}

TEST(RemediesJson, MatchingNamesAPositionOrASpare) {
  Remedy match = remedy(RemedyKind::match);
  match.takes = {{1, "1", 1, 2, ""}, {2, "2", 0, 0, "piston-9"}};
  EXPECT_EQ(made(match)["steps"], Json::parse(R"([{"index": 1, "label": "1", "now": 1, "take": 2, "moved": true},
                                                  {"index": 2, "label": "2", "now": null, "take": "piston-9", "moved": true}])"));
  match.kind = RemedyKind::part;
  match.takes.erase(match.takes.begin());
  EXPECT_EQ(made(match)["steps"], Json::parse(R"([{"index": 2, "label": "2", "part": "piston-9"}])"));
}

TEST(RemediesJson, ACombinedOneNamesItsParts) {
  Remedy both = remedy(RemedyKind::combined);
  both.parts = {"r2", "r3"};
  EXPECT_EQ(made(both)["parts"], Json::parse(R"(["r2", "r3"])"));
  EXPECT_FALSE(made(both).contains("steps"));
}

TEST(RemediesJson, WhyThereIsNone) {
  const RemedyList list{
      {}, {{"rod_clearance", "", 2, "no wall known for the halves fitted", "R1"}, {"", "bore", 0, "why"}}, false};
  EXPECT_EQ(
      remedies_json({"K31", 1, "", ""}, list)["none"],
      Json::parse(R"([{"fit": "rod_clearance", "index": 2, "label": "R1", "why": "no wall known for the halves fitted"},
                            {"fit": null, "feature": "bore", "index": null, "label": null, "why": "why"}])"));
}

}  // namespace
}  // namespace tenth
