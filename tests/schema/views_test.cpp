#include "schema/wire/views.hpp"

#include <gtest/gtest.h>

#include <set>

#include "sample_bench.hpp"

namespace tenth {
namespace {

Json first_where(const Json& array, const std::string& key, const Json& value) {
  for (const Json& item : array)
    if (item.at(key) == value) return item;
  return nullptr;
}

std::set<std::string> keys_of(const Json& object) {
  std::set<std::string> keys;
  for (const auto& [key, value] : object.items()) keys.insert(key);
  return keys;
}

const Engine& measured() {
  static const Bench bench = sample::bench();
  return bench.engines.at(sample::kEngine);
}

TEST(ReadingKeys, StandInTheOrderOfTheDictionary) {
  // The first paragraph of the dictionary in schema/wire.md.
  const std::vector<std::string> dictionary = {
      "seq",     "time",      "engine", "feature",    "index",       "level",       "axis",    "operator", "gauge",
      "raw",     "text",      "unit",   "value_mm",   "size_mm",     "size_20c_mm", "state",   "hash",     "label",
      "stage",   "counts",    "doubts", "reason",     "source",      "moved_from",  "setting", "closed",   "overdue",
      "carried", "spread_mm", "passes", "claimed_by", "measured_at", "note"};
  EXPECT_EQ(reading_keys(), dictionary);
}

TEST(ReadingJson, HasEveryKeyOfTheDictionaryEvenOfAnEmptyReading) {
  const Json json = reading_json(Reading{}, false, false);
  EXPECT_EQ(keys_of(json), std::set<std::string>(reading_keys().begin(), reading_keys().end()));
  for (const char* key : {"engine", "feature", "index", "level", "axis", "operator", "gauge", "size_mm", "size_20c_mm",
                          "hash", "label", "stage", "reason", "moved_from", "setting"})
    EXPECT_TRUE(json.at(key).is_null()) << key;
  EXPECT_EQ(json["doubts"], Json::array());
  EXPECT_EQ(json["overdue"], false);
}

TEST(ReadingJson, SaysPlaceAndSizesExactly) {
  Reading reading = sample::reading(33, {"bore", 3, "top", "thrust"}, Length::from_pm(83'010'400'001));
  reading.value = Length::from_pm(-25'400);
  reading.label = "L3";
  reading.doubts = {Doubt::range, Doubt::inch_mm};
  reading.moved_from = Place{"bore", 2, "top", "pin"};
  reading.moved_from_label = "R1";
  reading.state = State::voided;
  reading.setting = 20;
  const Json json = reading_json(reading, false, false);
  EXPECT_EQ(json["index"], 3);
  EXPECT_EQ(json["label"], "L3");
  EXPECT_EQ(json["level"], "top");
  EXPECT_EQ(canonical(json["size_mm"]), "83.010400001");
  EXPECT_EQ(canonical(json["value_mm"]), "-0.0000254");
  EXPECT_EQ(json["doubts"], Json({"range", "inch_mm"}));
  EXPECT_EQ(json["moved_from"], "bore/R1/top/pin");
  EXPECT_EQ(json["state"], "void");
  EXPECT_EQ(json["unit"], "mm");
  EXPECT_EQ(json["source"], "gauge");
  EXPECT_EQ(json["setting"], 20);
}

TEST(ReadingJson, LeavesLevelAndAxisNullWhereTheFeatureHasNone) {
  const Json json = reading_json(sample::reading(33, {"piston", 1, "", ""}, sample::um(82'950)), true, true);
  EXPECT_TRUE(json["level"].is_null());
  EXPECT_TRUE(json["axis"].is_null());
  EXPECT_EQ(json["index"], 1);
  EXPECT_EQ(json["counts"], true);
  EXPECT_EQ(json["carried"], true);
}

TEST(ReadingsJson, HoldAllInOrderOrThoseThatCount) {
  const Json all = readings_json(measured(), true), some = readings_json(measured(), false);
  EXPECT_EQ(all.size(), measured().readings.size());
  EXPECT_LT(some.size(), all.size());
  for (std::size_t i = 1; i < all.size(); ++i) EXPECT_LT(all[i - 1]["seq"], all[i]["seq"]);
  for (const Json& reading : some) EXPECT_EQ(reading["counts"], true);
  for (const Json& reading : all) {
    EXPECT_EQ(first_where(some, "seq", reading["seq"]).is_null(), reading["counts"] == false);
    EXPECT_FALSE(reading["state"] != "kept" && reading["counts"] == true);
  }
}

TEST(ReadingsJson, SayWhatIsCarriedIntoALaterStage) {
  const Json some = readings_json(measured(), false);
  for (const Json& reading : some) {
    const bool journal_left_alone = reading["feature"] == "main_journal" && reading["index"] != 3;
    EXPECT_EQ(reading["carried"], journal_left_alone) << reading["seq"];
  }
}

TEST(ReportJson, HasTheShapesOfTheContract) {
  const Json report = report_json(judge(measured()));
  EXPECT_EQ(keys_of(report),
            (std::set<std::string>{"engine", "spec", "features", "fits", "spreads", "checks", "verdict"}));
  EXPECT_EQ(keys_of(report["features"][0]),
            (std::set<std::string>{"feature",         "index",          "label",     "out_of_round_method",
                                   "stage",           "carried",        "corrected", "shape",
                                   "mean_mm",         "min_mm",         "max_mm",    "out_of_round_mm",
                                   "out_of_round_by", "taper_mm",       "taper_by",  "readings",
                                   "missing",         "uncertainty_mm", "verdict",   "reasons"}));
  EXPECT_EQ(keys_of(report["fits"][0]),
            (std::set<std::string>{"fit", "index", "outside_index", "label", "outside_label", "inside_stage",
                                   "outside_stage", "min_mm", "mean_mm", "max_mm", "lower_mm", "upper_mm", "target_mm",
                                   "uncertainty_mm", "probability", "corrected", "verdict", "reasons"}));
  EXPECT_EQ(keys_of(report["spreads"][0]),
            (std::set<std::string>{"feature", "spread_mm", "limit_mm", "uncertainty_mm", "verdict"}));
  EXPECT_EQ(keys_of(report["checks"][0]),
            (std::set<std::string>{"feature", "index", "label", "answer", "note", "verdict"}));
}

TEST(ReportJson, SaysFiguresVerdictsAndReasons) {
  const Json report = report_json(judge(measured()));
  EXPECT_EQ(report["engine"], sample::kEngine);
  EXPECT_EQ(report["spec"], 7);
  EXPECT_EQ(report["verdict"], "incomplete");
  const Json bore = first_where(report["features"], "feature", "bore");
  EXPECT_EQ(bore["out_of_round_by"], "same_level");
  EXPECT_EQ(bore["taper_by"], "along_axis");
  EXPECT_EQ(bore["uncertainty_mm"], 0.002);
  EXPECT_EQ(first_where(report["features"], "feature", "piston")["out_of_round_mm"], nullptr);
  EXPECT_EQ(report["fits"][0]["corrected"], false);
  EXPECT_EQ(report["fits"][0]["target_mm"], 0.06);
  EXPECT_EQ(report["checks"][0]["answer"], "yes");
  EXPECT_EQ(report["checks"][0]["note"], "blown through");
}

TEST(ReportJson, LeavesNullWhatIsNotKnown) {
  Report report;
  report.fits.push_back({});
  report.checks.push_back({});
  report.features.push_back({});
  report.features[0].reasons.push_back({"size", sample::um(5), sample::um(4), Side::upper, Verdict::out});
  const Json json = report_json(report);
  EXPECT_TRUE(json["verdict"].is_null());
  for (const char* key : {"min_mm", "lower_mm", "target_mm", "uncertainty_mm", "probability", "verdict"})
    EXPECT_TRUE(json["fits"][0][key].is_null()) << key;
  EXPECT_TRUE(json["checks"][0]["answer"].is_null());
  EXPECT_TRUE(json["checks"][0]["note"].is_null());
  const Json reason = {
      {"what", "size"}, {"value_mm", 0.005}, {"limit_mm", 0.004}, {"side", "upper"}, {"verdict", "out"}};
  EXPECT_EQ(json["features"][0]["reasons"][0], reason);
}

TEST(ReportJson, RoundsAProbabilityToTwelvePlaces) {
  Report report;
  report.fits.push_back({});
  report.fits[0].probability = 0.123456789012345678;
  EXPECT_EQ(canonical(report_json(report)["fits"][0]["probability"]), "0.123456789012");
  report.fits[0].probability = 1.0;
  EXPECT_EQ(canonical(report_json(report)["fits"][0]["probability"]), "1");
}

TEST(AlertJson, HasTheKeysOfTheContract) {
  Alert alert;
  alert.id = 40;
  alert.time = "2026-03-01T08:15:30.123456Z";
  alert.cause = {"six",           AlertWhat::out, Severity::stop, "bore 2",
                 "bore 2 is out", sample::um(5),  sample::um(4),  {33, 34}};
  Json told = {{"id", 40},           {"event", "alert"},     {"time", alert.time},  {"engine", "six"},
               {"severity", "stop"}, {"what", "out"},        {"subject", "bore 2"}, {"text", "bore 2 is out"},
               {"value_mm", 0.005},  {"limit_mm", 0.004},    {"seqs", {33, 34}},    {"state", "open"},
               {"note", nullptr},    {"cleared_by", nullptr}};
  EXPECT_EQ(alert_json(alert), told);
  alert.cause.engine.reset();
  alert.cause.value.reset();
  alert.state = AlertState::cleared;
  alert.note = "seen";
  alert.cleared_by = "first bench";
  told.update({{"engine", nullptr},
               {"value_mm", nullptr},
               {"state", "cleared"},
               {"note", "seen"},
               {"cleared_by", "first bench"}});
  EXPECT_EQ(alert_json(alert), told);
}

}  // namespace
}  // namespace tenth
