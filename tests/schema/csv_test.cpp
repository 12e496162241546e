#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "sample_bench.hpp"
#include "schema/export/exports.hpp"
#include "schema/wire/views.hpp"

namespace tenth {
namespace {

using Table = std::vector<std::vector<std::string>>;

/// A reader of RFC 4180, strict: rows end with CRLF, a quoted field may hold anything.
Table read(const std::string& text) {
  Table rows(1, {""});
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '"' && i + 1 < text.size() && text[i + 1] == '"')
      rows.back().back() += text[++i];
    else if (c == '"')
      quoted = !quoted;
    else if (quoted)
      rows.back().back() += c;
    else if (c == ',')
      rows.back().emplace_back();
    else if (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n') {
      rows.push_back({""});
      ++i;
    } else
      rows.back().back() += c;
  }
  EXPECT_EQ(rows.back(), std::vector<std::string>{""}) << "the last row ends with CRLF";
  rows.pop_back();
  return rows;
}

std::size_t column(const std::string& key) {
  const auto& keys = reading_keys();
  return static_cast<std::size_t>(std::find(keys.begin(), keys.end(), key) - keys.begin());
}

/// One engine with one reading.
Engine with(Reading reading) {
  Engine engine;
  engine.name = "six";
  engine.spec = std::make_shared<const Spec>(sample::spec());
  engine.readings = {std::move(reading)};
  return engine;
}

Reading at_bore() {
  return sample::reading(33, {"bore", 3, "top", "thrust"}, sample::um(83'010));
}

std::string cell(const Reading& reading, const std::string& key) {
  return read(csv(with(reading))).at(1).at(column(key));
}

TEST(Csv, BeginsWithTheReadingKeysInOrder) {
  const Table table = read(csv(with(at_bore())));
  EXPECT_EQ(table.at(0), reading_keys());
  EXPECT_EQ(csv(with(at_bore())).substr(0, 25), "seq,time,engine,feature,i");
}

TEST(Csv, HasOneRowForEveryReadingInOrder) {
  const Bench bench = sample::bench();
  const Engine& engine = bench.engines.at(sample::kEngine);
  const Table table = read(csv(engine));
  ASSERT_EQ(table.size(), engine.readings.size() + 1);
  for (std::size_t i = 0; i < engine.readings.size(); ++i) {
    ASSERT_EQ(table[i + 1].size(), reading_keys().size());
    EXPECT_EQ(table[i + 1][0], std::to_string(engine.readings[i].seq));
    EXPECT_EQ(table[i + 1][column("engine")], sample::kEngine);
  }
}

TEST(Csv, WritesLengthsAsExactDecimals) {
  Reading reading = at_bore();
  reading.size = Length::from_pm(83'010'400'001);
  reading.value = Length::from_pm(-25'400);
  EXPECT_EQ(cell(reading, "size_mm"), "83.010400001");
  EXPECT_EQ(cell(reading, "value_mm"), "-0.0000254");
  reading.size = sample::um(83'000);
  EXPECT_EQ(cell(reading, "size_mm"), "83");
}

TEST(Csv, LeavesNullEmptyAndJoinsLists) {
  Reading reading = at_bore();
  reading.size.reset();
  reading.doubts = {Doubt::range, Doubt::tenfold};
  EXPECT_EQ(cell(reading, "size_mm"), "");
  EXPECT_EQ(cell(reading, "size_20c_mm"), "");
  EXPECT_EQ(cell(reading, "doubts"), "range tenfold");
  EXPECT_EQ(cell(reading, "closed"), "false");
}

TEST(Csv, DisarmsWhatASpreadsheetWouldRun) {
  Reading reading = at_bore();
  for (const std::string text : {"=1+1", "+cmd", "-cmd", "@sum", "\ttab", "\rreturn", "-", "+1.2.3", "-1,5", "=5"}) {
    reading.reason = text;
    EXPECT_EQ(cell(reading, "reason"), "'" + text);
  }
  for (const std::string text : {"-0.0123", "+83.010", "-.5", "-5", "83", "a=1", "'quoted", ""}) {
    reading.reason = text;
    EXPECT_EQ(cell(reading, "reason"), text);
  }
}

TEST(Csv, QuotesWhatNeedsIt) {
  Reading reading = at_bore();
  reading.reason = "a \"good\" one, really\r\nyes";
  EXPECT_NE(csv(with(reading)).find(",\"a \"\"good\"\" one, really\r\nyes\","), std::string::npos);
  reading.reason = "plain words";
  EXPECT_NE(csv(with(reading)).find(",plain words,"), std::string::npos);
}

RC_GTEST_PROP(Csv, GivesBackEveryTextAsItWas, ()) {
  Reading reading = at_bore();
  reading.reason = "x" + *rc::gen::container<std::string>(rc::gen::element('"', ',', '\r', '\n', '=', 'a', ' '));
  RC_ASSERT(cell(reading, "reason") == *reading.reason);
}

}  // namespace
}  // namespace tenth
