#include "rules/engine.hpp"
#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::at;
using testing::len;
using testing::Workpiece;
using Seqs = std::vector<std::int64_t>;

Workpiece one_bore(int presses = 1) {
  Workpiece work;
  work.feature("bore", Kind::inside, testing::limits("83.000", "83.035"), 2).presses = presses;
  return work;
}

Seqs seqs(const std::vector<const Reading*>& readings) {
  Seqs result;
  for (const Reading* reading : readings) result.push_back(reading->seq);
  return result;
}

TEST(Counting, TheLastKeptReadingOfAPlace) {
  Workpiece work = one_bore();
  work.read("bore/1", "83.010");
  work.read("bore/1", "83.012");
  work.read("bore/2", "83.020");
  const CountingMap counts = work.counts();
  ASSERT_EQ(counts.size(), 2U);
  EXPECT_EQ(counts.at(at("bore/1")).size, len("83.012"));
  EXPECT_EQ(counts.at(at("bore/1")).seqs, Seqs{2});
  EXPECT_EQ(counts.at(at("bore/2")).size, len("83.020"));
}

TEST(Counting, AVoidUncoversTheOneBefore) {
  Workpiece work = one_bore();
  work.read("bore/1", "83.010");
  work.read("bore/1", "83.012").state = State::voided;
  EXPECT_EQ(work.counts().at(at("bore/1")).seqs, Seqs{1});
}

TEST(Counting, SuspectAndPlacelessAndSizelessReadingsNeverCount) {
  Workpiece work = one_bore();
  work.read("bore/1", "83.010").state = State::suspect;
  work.read("bore/1", "83.010").place.reset();
  work.read("bore/1", "83.010").size.reset();
  EXPECT_TRUE(work.counts().empty());
}

TEST(Counting, AFeatureThatTheSpecLacksHasNothing) {
  Workpiece work = one_bore();
  work.read("liner/1", "83.010");
  EXPECT_TRUE(work.counts().empty());
}

TEST(Presses, TheMeanOfTheLastOnes) {
  Workpiece work = one_bore(3);
  for (const char* size : {"83.030", "83.010", "83.011", "83.013"}) work.read("bore/1", size);
  const Counting counts = work.counts().at(at("bore/1"));
  EXPECT_EQ(counts.size, len("83.011333333"));
  EXPECT_EQ(counts.seqs, (Seqs{2, 3, 4}));
}

TEST(Presses, FewerCountForNothing) {
  Workpiece work = one_bore(3);
  work.read("bore/1", "83.010");
  work.read("bore/1", "83.011");
  work.read("bore/1", "83.013").state = State::voided;
  EXPECT_TRUE(work.counts().empty());
}

TEST(Stages, AsFoundIsTheFirst) {
  Workpiece work = one_bore();
  EXPECT_EQ(stage_of(work.done(), "bore").name, "as found");
  work.begin_stage("bore", "honed", false);
  EXPECT_EQ(stage_of(work.done(), "bore").name, "honed");
}

TEST(Stages, ANewOneMakesItsFeatureUnread) {
  Workpiece work = one_bore();
  work.feature("piston", Kind::outside, testing::limits("82.95", "82.97"));
  work.read("bore/1", "83.010");
  work.read("piston/1", "82.960");
  work.begin_stage("bore", "honed", false);
  EXPECT_FALSE(work.counts().contains(at("bore/1")));
  EXPECT_TRUE(work.counts().contains(at("piston/1")));
  work.read("bore/1", "83.015");
  EXPECT_EQ(work.counts().at(at("bore/1")).stage, "honed");
}

TEST(Carry, EarlierReadingsCountUntilReplaced) {
  Workpiece work = one_bore();
  work.read("bore/1", "83.010");
  work.read("bore/2", "83.011");
  work.begin_stage("bore", "washed", true);
  work.read("bore/2", "83.012");
  const CountingMap counts = work.counts();
  EXPECT_TRUE(counts.at(at("bore/1")).carried);
  EXPECT_EQ(counts.at(at("bore/1")).stage, "as found");
  EXPECT_FALSE(counts.at(at("bore/2")).carried);
  EXPECT_EQ(counts.at(at("bore/2")).size, len("83.012"));
}

TEST(Carry, FallsThroughStagesForAsLongAsEachCarries) {
  Workpiece work = one_bore();
  work.read("bore/1", "83.010");
  work.begin_stage("bore", "honed", false);
  work.read("bore/2", "83.020");
  work.begin_stage("bore", "washed", true);
  work.begin_stage("bore", "as left", true);
  const CountingMap counts = work.counts();
  EXPECT_FALSE(counts.contains(at("bore/1")));  // honed does not carry what was found
  EXPECT_TRUE(counts.at(at("bore/2")).carried);
  EXPECT_EQ(counts.at(at("bore/2")).stage, "honed");
}

TEST(Carry, DoesNotMixThePressesOfTwoStages) {
  Workpiece work = one_bore(2);
  work.read("bore/1", "83.010");
  work.read("bore/1", "83.012");
  work.begin_stage("bore", "washed", true);
  work.read("bore/1", "83.030");
  EXPECT_EQ(work.counts().at(at("bore/1")).seqs, (Seqs{1, 2}));
}

TEST(Carry, WorksWithTheFirstStageWrittenOut) {
  Workpiece work = one_bore();
  work.engine.stages["bore"] = {Stage{}};
  work.read("bore/1", "83.010");
  work.begin_stage("bore", "washed", true);
  EXPECT_TRUE(work.counts().at(at("bore/1")).carried);
}

TEST(KeptAt, ThePresentStageOnlyOldestFirst) {
  Workpiece work = one_bore();
  work.read("bore/1", "83.010");
  work.begin_stage("bore", "washed", true);  // takes a seq as well
  work.read("bore/1", "83.011");
  work.read("bore/1", "83.012").state = State::voided;
  work.read("bore/2", "83.012");
  work.read("bore/1", "83.013");
  EXPECT_EQ(seqs(kept_at(work.done(), at("bore/1"))), (Seqs{3, 6}));
}

TEST(Gauges, TheLargestUncertaintyOfThoseUsed) {
  Workpiece work = one_bore(2);
  work.read("bore/1", "83.010").uncertainty = len("0.004");
  work.read("bore/1", "83.010").uncertainty = len("0.002");
  EXPECT_EQ(work.counts().at(at("bore/1")).uncertainty, len("0.004"));
}

TEST(Gauges, OneWithoutUncertaintyLeavesNone) {
  Workpiece work = one_bore(2);
  work.read("bore/1", "83.010").uncertainty = len("0.004");
  work.read("bore/1", "83.010");
  EXPECT_FALSE(work.counts().at(at("bore/1")).uncertainty);
}

TEST(Gauges, UncertaintyStandsForAMissingRepeatabilityOfTheSameGauge) {
  Workpiece work = one_bore(2);
  Reading& first = work.read("bore/1", "83.010");
  first.uncertainty = len("0.005");
  first.repeatability = len("0.001");
  work.read("bore/1", "83.010").uncertainty = len("0.003");
  EXPECT_EQ(work.counts().at(at("bore/1")).repeatability, len("0.003"));
}

}  // namespace
}  // namespace tenth
