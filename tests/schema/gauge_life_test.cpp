#include <gtest/gtest.h>

#include "schema/export/exports.hpp"
#include "schema/export/paper/papers.hpp"
#include "schema/ledger/fold.hpp"
#include "schema/ledger/references.hpp"
#include "tests/schema/html_support.hpp"
#include "tests/schema/sample_ledger.hpp"

// A gauge's life in the ledger: how its entries fold, and that a record of one engine holds all that its figures rest
// on.

namespace tenth {
namespace {

/// The sample's ledger with more entries behind it, told as the daemon does.
struct Story {
  std::vector<std::string> bodies;

  Story() {
    for (const Row& row : sample::two_engines()) bodies.push_back(row.body);
  }
  std::int64_t next() const { return static_cast<std::int64_t>(bodies.size()) + 1; }
  std::int64_t add(const std::string& kind, Json body) {
    const std::int64_t seq = next();
    body.update({{"kind", kind},
                 {"time", "2026-03-02T08:00:00.000000Z"},
                 {"by", {{"user", "shop"}, {"uid", 1000}, {"via", "socket"}}}});
    bodies.push_back(canonical(body));
    return seq;
  }
  /// A copy of an earlier entry with other words.
  std::int64_t again(std::int64_t seq, const Json& other) {
    Json body = Json::parse(bodies[static_cast<std::size_t>(seq - 1)]);
    body.update(other);
    bodies.push_back(canonical(body));
    return next() - 1;
  }
  std::int64_t calibrate(const char* due, Json uncertainty_pm, Json previous) {
    return add("calibration", {{"gauge", "comparator"},
                               {"gauge_entry", 5},
                               {"on", "2026-01-01"},
                               {"due", due},
                               {"certificate", "C <1>"},
                               {"lab", "the room"},
                               {"uncertainty_pm", uncertainty_pm},
                               {"previous", previous}});
  }
  std::vector<Row> rows() const { return sample::chained(bodies); }
  Bench bench() const {
    Bench folded;
    for (std::size_t i = 0; i < bodies.size(); ++i)
      apply(folded, {static_cast<std::int64_t>(i + 1), Json::parse(bodies[i]), ""});
    return folded;
  }
  Json record(const std::string& engine) const {
    auto text = tenth::record(rows(), engine, "2026-03-02T09:00:00.000000Z", "shop");
    EXPECT_TRUE(text) << text.error().message;
    const auto finding = audit_record(text.value_or("{}"));
    EXPECT_TRUE(finding && finding->ok) << (finding ? finding->why : finding.error().message);
    return Json::parse(text.value_or("{}"));
  }
};

std::set<std::string> kinds_of(const Json& record) {
  std::set<std::string> kinds;
  for (const Json& entry : record["entries"])
    if (entry.contains("body")) kinds.insert(Json::parse(entry["body"].get<std::string>())["kind"]);
  return kinds;
}

const Json& reading_in(const Json& record, std::int64_t seq) {
  for (const Json& reading : record["readings"])
    if (reading["seq"] == seq) return reading;
  throw std::out_of_range("no such reading");
}

TEST(GaugeLifeFold, AnOlderLedgerFoldsAsBefore) {
  const Bench bench = Story().bench();
  const Gauge& gauge = bench.gauges.at("comparator");
  EXPECT_FALSE(gauge.calibration);
  EXPECT_FALSE(is_overdue(gauge, "9999-12-31"));
  EXPECT_TRUE(gauge.setting->used.name.empty());
  EXPECT_FALSE(gauge.setting->used.reading);
  const Reading& reading = *find_reading(bench, sample::kRedReading);
  EXPECT_FALSE(reading.calibration);
  EXPECT_FALSE(reading.overdue);
  EXPECT_EQ(reading.uncertainty, Length::from_um(2));
}

TEST(GaugeLifeFold, TheRecordHoldsTheCalibrationsItRestsOn) {
  Story story;
  const auto first = story.calibrate("2026-02-01", 1'000'000, nullptr);
  const auto second = story.calibrate("2026-03-01", nullptr, first);
  const auto late =
      story.again(sample::kRedReading, {{"calibration", second}, {"overdue", true}, {"index", 2}, {"label", "2"}});
  const Json red = story.record("red");
  EXPECT_EQ(reading_in(red, late)["overdue"], true);
  EXPECT_EQ(reading_in(red, sample::kRedReading)["overdue"], false);
  EXPECT_TRUE(kinds_of(red).contains("calibration"));
  EXPECT_EQ(red["check"]["features"][1]["uncertainty_mm"], 0.001)
      << "found by the one before, which has to be given too";
  EXPECT_FALSE(kinds_of(story.record("blue")).contains("calibration")) << "nothing of blue rests on them";
}

TEST(GaugeLifeFold, DueDaysAreInclusive) {
  Story story;
  story.calibrate("2026-03-01", nullptr, nullptr);
  const Bench bench = story.bench();
  EXPECT_FALSE(is_overdue(bench.gauges.at("comparator"), "2026-03-01"));
  EXPECT_TRUE(is_overdue(bench.gauges.at("comparator"), "2026-03-02"));
}

TEST(GaugeLifeFold, ARecordFollowsTheCorrectionOfASetting) {
  Story story;
  const auto correction = story.add("setting_correct", {{"gauge", "comparator"},
                                                        {"setting", sample::kSetting},
                                                        {"master_pm", 80'000'500'000},
                                                        {"reason", "it was the other block"},
                                                        {"follows", nullptr}});
  const auto resize = [&](const char* engine, std::int64_t reading) {
    story.add("resized", {{"engine", engine},
                          {"seqs", {reading}},
                          {"setting", sample::kSetting},
                          {"correction", correction},
                          {"reason", "it was the other block"}});
  };
  resize("red", sample::kRedReading);
  resize("blue", sample::kBlueReading);
  // The sample's readings say sizes as values: master + (value - shown) is 160.0125 mm.
  EXPECT_EQ(reading_in(story.record("red"), sample::kRedReading)["size_mm"], 160.0125);
  EXPECT_EQ(reading_in(story.record("red"), sample::kRedReading)["value_mm"], 80.012);
  EXPECT_EQ(reading_in(story.record("blue"), sample::kBlueReading)["size_mm"], 160.0455);
  const Bench bench = story.bench();
  EXPECT_TRUE(bench.gauges.at("comparator").setting->corrected);
  EXPECT_EQ(bench.gauges.at("comparator").setting->master, Length::from_pm(80'000'500'000));
  EXPECT_NE(bench.choices.front().text.find("setting 10"), std::string::npos);
  EXPECT_EQ(bench.choices.front().reason, "it was the other block");
}

TEST(GaugeLifeFold, ARecordThatHidesTheCorrectionIsFalse) {
  Story story;
  const auto correction = story.add(
      "setting_correct",
      {{"gauge", "comparator"}, {"setting", sample::kSetting}, {"master_pm", 80'000'500'000}, {"reason", "r"}});
  story.add("resized", {{"engine", "red"},
                        {"seqs", {sample::kRedReading}},
                        {"setting", sample::kSetting},
                        {"correction", correction},
                        {"reason", "r"}});
  Json red = story.record("red");
  for (Json& entry : red["entries"])
    if (entry["seq"] == correction)
      entry = {{"seq", correction}, {"digests", hex(sha256(entry["body"].get<std::string>()))}};
  const auto finding = audit_record(canonical(red));
  ASSERT_TRUE(finding);
  EXPECT_FALSE(finding->ok);
  EXPECT_NE(finding->why.find("rests on entry " + std::to_string(correction)), std::string::npos) << finding->why;
}

TEST(GaugeLifeFold, ASettingInAnotherGaugeBringsItsReadingAlong) {
  Story story;
  const auto ring = story.add("master", {{"name", "R80"},
                                         {"size_pm", 80'000'000'000},
                                         {"unit", "mm"},
                                         {"certificate", "C-9"},
                                         {"due", nullptr},
                                         {"uncertainty_pm", nullptr}});
  const auto named = story.again(sample::kSetting, {{"master", "R80"}, {"master_entry", ring}});
  const auto clamped = story.again(
      sample::kSetting,
      {{"in", "comparator"}, {"master_reading", sample::kBlueReading}, {"master_uncertainty_pm", 1'500'000}});
  story.again(sample::kRedReading, {{"setting", named}});
  story.again(sample::kRedReading, {{"setting", clamped}, {"index", 2}});
  const Json red = story.record("red");
  EXPECT_TRUE(kinds_of(red).contains("master")) << "its certificate is part of the record";
  EXPECT_EQ(red["check"]["features"][0]["uncertainty_mm"], 0.002);
  EXPECT_EQ(red["check"]["features"][1]["uncertainty_mm"], 0.0025) << "2 and 1.5 um joined";
  bool given = false;
  for (const Json& entry : red["entries"])
    given = given || (entry["seq"] == sample::kBlueReading && entry.contains("body"));
  EXPECT_TRUE(given);
}

TEST(GaugeLifeFold, ADoubtBringsItsActAlong) {
  Story story;
  const auto act = story.add(
      "gauge_doubt",
      {{"gauge", "comparator"}, {"gauge_entry", 5}, {"since", "2026-03-01T00:00:00.000000Z"}, {"reason", "chipped"}});
  story.add("doubt", {{"engine", "red"},
                      {"seqs", {sample::kRedReading}},
                      {"doubt", "gauge"},
                      {"setting", nullptr},
                      {"gauge", "comparator"},
                      {"gauge_doubt", act},
                      {"reason", "chipped"}});
  const Json red = story.record("red");
  EXPECT_EQ(reading_in(red, sample::kRedReading)["doubts"], Json::array({"gauge"}));
  EXPECT_EQ(reading_in(red, sample::kRedReading)["state"], "suspect");
  EXPECT_TRUE(kinds_of(red).contains("gauge_doubt"));
}

TEST(GaugeLifeFold, WhatRestsOnNothingIsRefused) {
  Bench bench = Story().bench();
  const auto fold = [&](const char* kind, Json body) {
    body.update({{"kind", kind}, {"time", "2026-03-02T08:00:00.000000Z"}, {"by", {{"user", "shop"}}}});
    apply(bench, {999, body, ""});
  };
  EXPECT_ANY_THROW(fold("resized", {{"engine", "red"}, {"setting", 9999}, {"seqs", {sample::kRedReading}}}));
  EXPECT_ANY_THROW(fold("resized", {{"engine", "red"}, {"setting", sample::kSetting}, {"seqs", {9999}}}));
  EXPECT_ANY_THROW(
      fold("calibration", {{"gauge", "nobody"}, {"on", "2026-01-01"}, {"due", "2026-01-01"}, {"certificate", "C"}}));
  EXPECT_ANY_THROW(fold("master_drop", {{"name", "nobody"}}));
  EXPECT_ANY_THROW(fold("setting_correct", {{"setting", sample::kSetting}}));
}

TEST(GaugeLifePage, ShowsCalibrationsMastersAndCorrections) {
  Story story;
  const auto calibration = story.calibrate("2026-03-01", nullptr, nullptr);
  story.again(sample::kSetting, {{"master", "R <80>"}, {"previous", sample::kSetting}});
  story.again(sample::kSetting, {{"in", "mic"}});
  story.again(sample::kRedReading, {{"calibration", calibration}, {"overdue", true}});
  story.add("setting_correct",
            {{"gauge", "comparator"}, {"setting", sample::kSetting}, {"master_pm", 80'000'500'000}, {"reason", "r"}});
  const Bench bench = story.bench();
  const std::string page = html(paper::build_record(bench, bench.engines.at("red"), {bench.seq, sha256("head")}));
  EXPECT_EQ(unbalanced(page), "");
  EXPECT_TRUE(has(page, "C &lt;1&gt; of 2026-01-01 by the room, due 2026-03-01<b>, overdue</b>")) << page;
  EXPECT_TRUE(has(page, "its gauge was past the due day of its calibration"));
  EXPECT_TRUE(has(page, "80.000 R &lt;80&gt;")) << page;
  EXPECT_TRUE(has(page, "80.000 in mic"));
  EXPECT_TRUE(has(page, "80.0005, corrected"));
  const Bench plain = Story().bench();
  EXPECT_TRUE(has(html(paper::build_record(plain, plain.engines.at("red"), {1, sha256("head")})), "none recorded"));
}

}  // namespace
}  // namespace tenth
