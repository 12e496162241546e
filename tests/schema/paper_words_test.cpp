#include <gtest/gtest.h>

#include <set>

#include "sample_bench.hpp"
#include "schema/export/paper/paper.hpp"
#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

using sample::um;

TEST(Words, SayReasonsWithAsManyPlacesAsItTakes) {
  EXPECT_EQ(reason_words({"clearance", um(22), um(30), Side::lower, Verdict::out}, Unit::mm),
            "clearance 0.022 is 0.008 below the lower limit 0.030");
  EXPECT_EQ(reason_words({"size", um(60'044), um(60'040), Side::upper, Verdict::out}, Unit::mm),
            "size 60.044 is 0.004 above the upper limit 60.040");
  EXPECT_EQ(reason_words({"out_of_round", um(9), um(10), Side::upper, Verdict::doubtful}, Unit::mm),
            "out of round 0.009 is 0.001 below the upper limit 0.010");
  EXPECT_EQ(reason_words({"size", Length::from_pm(60'040'020'000), um(60'040), Side::upper, Verdict::out}, Unit::mm),
            "size 60.04002 is 0.00002 above the upper limit 60.04000");
  EXPECT_EQ(reason_words({"size", um(30), um(30), Side::lower, Verdict::doubtful}, Unit::mm),
            "size 0.030 is on the lower limit 0.030");
  EXPECT_EQ(reason_words({"taper", Length::from_um(254), Length::from_um(0), Side::upper, Verdict::out}, Unit::in),
            "taper 0.0100 is 0.0100 above the upper limit 0.0000");
}

TEST(Words, NameFeaturesLimitsAndTimes) {
  EXPECT_EQ(heading("main_bearing"), "Main bearing");
  EXPECT_EQ(heading(""), "");
  EXPECT_EQ(limits_words({um(30), um(60)}, Unit::mm), "0.030 to 0.060");
  EXPECT_EQ(limits_words({um(30), {}}, Unit::mm), "at least 0.030");
  EXPECT_EQ(limits_words({{}, um(60)}, Unit::mm), "at most 0.060");
  EXPECT_EQ(limits_words({}, Unit::mm), "no limits");
  EXPECT_EQ(limits_words({Length::from_pm(83'003'390'000), {}}, Unit::in), "at least 3.26785") << "not rounded";
  EXPECT_EQ(short_time("2026-03-01T08:15:30.123456Z"), "2026-03-01 08:15:30");
}

TEST(Words, SayWhatAReadingCameFrom) {
  Reading reading;
  reading.source = Source::hand;
  EXPECT_EQ(gauge_words(reading), "by hand");
  reading.source = Source::imported;
  EXPECT_EQ(gauge_words(reading), "from a table");
  reading.gauge = "snap";
  EXPECT_EQ(gauge_words(reading), "snap");
}

TEST(Words, HaveASentenceForEveryVerdict) {
  std::set<std::string> verdicts = {verdict_sentence({})};
  for (const Verdict verdict : {Verdict::in, Verdict::doubtful, Verdict::incomplete, Verdict::out})
    verdicts.insert(verdict_sentence(verdict));
  EXPECT_EQ(verdicts.size(), 5U);
}

TEST(Words, ShowReadingsWholeWhereTheirUnitCan) {
  const Length fine = Length::from_pm(96'018'350'000);  // 3.78025 in
  EXPECT_EQ(figure(fine, Unit::in), "3.7803");
  EXPECT_EQ(whole_figure(fine, Unit::in), "3.78025");
  EXPECT_EQ(whole_figure(fine, Unit::mm), "96.01835");
  EXPECT_EQ(whole_figure(um(83'010), Unit::mm), "83.010");
  EXPECT_EQ(whole_figure(um(83'010), Unit::in), "3.26811") << "no number of inches is whole: one place finer";
  EXPECT_EQ(whole_figure(um(-254), Unit::in), "-0.0100");
  EXPECT_EQ(whole_figure({}, Unit::in), "");
}

TEST(Words, TellVerdictsApartBySignAndWord) {
  std::set<Sign> signs;
  for (const Verdict verdict : {Verdict::in, Verdict::doubtful, Verdict::incomplete, Verdict::out}) {
    signs.insert(mark(verdict).sign.value());
    EXPECT_EQ(mark(verdict).text, name(verdict));
  }
  EXPECT_EQ(signs.size(), 4U);
  EXPECT_EQ(mark({}).text, "not judged");
  EXPECT_FALSE(mark({}).sign);
}

}  // namespace
}  // namespace tenth::paper
