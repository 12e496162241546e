#include <gtest/gtest.h>

#include "html_support.hpp"
#include "pdf_support.hpp"
#include "sample_bench.hpp"
#include "schema/export/exports.hpp"
#include "schema/export/paper/papers.hpp"

namespace tenth {
namespace {

std::string sheet_of(const Bench& bench, const std::vector<std::string>& names) {
  const Engine& engine = bench.engines.at(sample::kEngine);
  std::vector<const Feature*> features;
  for (const std::string& name : names) features.push_back(engine.spec->find(name));
  return html(paper::shop_sheet(bench, engine, features, {bench.seq, sha256("head")}));
}

std::string act(const std::string& page, const std::string& title) {
  const auto from = page.find("<h2>" + title);
  return page.substr(from, page.find("<h2>", from + 4) - from);
}

Bench with_choices() {
  Bench bench = sample::bench();
  const auto choice = [&](std::int64_t seq, const std::string& text) {
    bench.choices.push_back({seq, "decide", sample::kEngine, "2026-03-04T10:00:00.000000Z", text, "ann", "<worn>"});
  };
  choice(300, "grind all mains to 59.738");
  choice(301, "bore 2: hone to 83.020");
  choice(302, "main journal 3: check the fillet");
  choice(303, "main_clearance: keep to the middle");
  bench.choices.push_back({304, "decide", "another", "2026-03-04T10:00:00.000000Z", "scrap it", "ben", "bent"});
  return bench;
}

TEST(ShopSheet, TellsTheDecisionsThatMayBeAboutThePart) {
  const std::string work = act(sheet_of(with_choices(), {"main_journal"}), "Work");
  EXPECT_TRUE(has(work, "<b>grind all mains to 59.738</b>")) << "it names no feature";
  EXPECT_TRUE(has(work, "main journal 3: check the fillet"));
  EXPECT_TRUE(has(work, "main_clearance: keep"));
  EXPECT_TRUE(has(work, "&lt;worn&gt;"));
  EXPECT_FALSE(has(work, "hone to 83.020")) << "it names another feature alone";
  EXPECT_FALSE(has(work, "scrap it"));
  EXPECT_TRUE(has(act(sheet_of(sample::bench(), {"bore"}), "Work"), "holds no decision"));
}

TEST(ShopSheet, AnOrderStandsUntilItsPartsAreBack) {
  Bench bench = with_choices();
  auto& sent = bench.engines.at(sample::kEngine).sent;
  const std::string when = "2026-03-04T10:00:00.000000Z";
  bench.choices.push_back({310, "send", sample::kEngine, when, "main_journal sent to A: grind 0.25 under", "ann", {}});
  sent["main_journal"] = {310, when, "A", "grind 0.25 under", AskedSize{sample::um(59'738), sample::um(5)}, {}};
  EXPECT_TRUE(has(act(sheet_of(bench, {"main_journal"}), "Work"), "grind 0.25 under"));
  EXPECT_FALSE(has(act(sheet_of(bench, {"bore"}), "Work"), "grind 0.25 under"));
  sent["main_journal"].received = 311;
  const std::string after = sheet_of(bench, {"main_journal"});
  EXPECT_FALSE(has(act(after, "Work"), "grind 0.25 under")) << "the next shop would grind it again";
  EXPECT_FALSE(has(act(after, "Sizes"), "asked of the shop"));
  EXPECT_TRUE(has(act(after, "Work"), "grind all mains to 59.738"));
}

TEST(ShopSheet, WhatIsOnlyToldIsNoWork) {
  Bench bench = sample::bench();
  for (const char* kind : {"note", "attach", "import", "setup", "receive", "doubt"})
    bench.choices.push_back(
        {320, kind, sample::kEngine, "2026-03-04T10:00:00.000000Z", "main_journal: told", "ann", {}});
  EXPECT_TRUE(has(act(sheet_of(bench, {"main_journal"}), "Work"), "holds no decision"));
}

TEST(ShopSheet, GivesWhatIsAskedForInBothUnits) {
  const std::string sizes = act(sheet_of(sample::bench(), {"main_journal"}), "Sizes");
  for (const char* row : {"<td>not under</td><td class=\"number\">2.36142</td><td class=\"number\">59.980</td>",
                          "<td>not over</td><td class=\"number\">2.36220</td><td class=\"number\">60.000</td>",
                          "<td>tolerance</td><td class=\"number\">0.00079</td><td class=\"number\">0.020</td>"})
    EXPECT_TRUE(has(sizes, row)) << row;
  EXPECT_TRUE(has(sizes, "Goes with main bearing: main clearance 0.030 to 0.060."));
  EXPECT_TRUE(has(act(sheet_of(sample::bench(), {"bore"}), "Sizes"), "<td>out of round, at most</td>"));
}

TEST(ShopSheet, GivesTheSizeThatTheShopWasAskedFor) {
  Bench bench = sample::bench();
  bench.engines.at(sample::kEngine).sent["main_journal"] = {
      300, "2026-03-04T10:00:00.000000Z", "the grinder", "all alike", AskedSize{sample::um(59'738), sample::um(5)}, {}};
  const std::string sizes = act(sheet_of(bench, {"main_journal"}), "Sizes");
  EXPECT_TRUE(
      has(sizes, "<td>asked of the shop</td><td class=\"number\">2.35189</td><td class=\"number\">59.738</td>"));
  EXPECT_TRUE(has(sizes, "<td>plus or minus</td><td class=\"number\">0.00020</td><td class=\"number\">0.005</td>"));
  EXPECT_FALSE(has(act(sheet_of(bench, {"bore"}), "Sizes"), "asked of the shop"));
}

TEST(ShopSheet, GivesWhatWasMeasuredByIndexWithItsGaugeAndRoomForAfter) {
  const std::string page = sheet_of(sample::bench(), {"main_journal"});
  const std::string sizes = act(page, "Sizes");
  EXPECT_TRUE(has(sizes, "after grinding"));
  EXPECT_EQ(times(sizes, "<td>micrometer</td>"), 7U);
  EXPECT_EQ(times(sizes, "<td class=\"hand\"></td><td class=\"hand\"></td>"), 7U);
  EXPECT_TRUE(has(act(page, "Gauges"), "<td>micrometer</td>"));
  EXPECT_FALSE(has(act(page, "Gauges"), "<td>bore gauge</td>"));
}

TEST(ShopSheet, SaysWhatToLeaveAloneAndWhoDecides) {
  const std::string page = sheet_of(sample::bench(), {"bore", "piston"});
  EXPECT_TRUE(has(page, "To keep their sizes: main bearing, main journal, ring gap top."));
  EXPECT_TRUE(has(act(page, "Cautions"), "the maker of the part decide"));
  EXPECT_TRUE(has(act(page, "Cautions"), "hardened"));
  EXPECT_TRUE(has(act(page, "Signed"), "Work done by"));
  EXPECT_TRUE(has(page, std::to_string(sample::bench().seq) + ":" + hex(sha256("head"))));
  EXPECT_EQ(unbalanced(page), "");
}

TEST(ShopSheet, HasTheAdviceThatNeedsNoStock) {
  Bench bench = sample::bench();
  for (Reading& reading : bench.engines.at(sample::kEngine).readings)
    if (reading.place->feature == "ring_gap_top" && reading.place->index == 1) reading.size = sample::um(250);
  const std::string page = sheet_of(bench, {"ring_gap_top"});
  EXPECT_TRUE(has(act(page, "Work"), "Worked out from the measurements, as advice: ")) << act(page, "Work");
  EXPECT_FALSE(has(act(sheet_of(bench, {"bore"}), "Work"), "as advice"));
}

TEST(ShopSheet, IsThePdfToo) {
  const Bench bench = with_choices();
  const Engine& engine = bench.engines.at(sample::kEngine);
  const auto paper = paper::shop_sheet(bench, engine, {engine.spec->find("main_journal")}, {bench.seq, sha256("head")});
  const PdfFile file(pdf(paper, paper::Sheet::letter));
  for (const char* part : {"grind all mains to 59.738", "2.36142", "59.980", "size after", "Taken on by"})
    EXPECT_TRUE(has(file.text(), part)) << part;
  EXPECT_EQ(file.codes(file.pages()), std::vector{printed({bench.seq, sha256("head")})});
}

}  // namespace
}  // namespace tenth
