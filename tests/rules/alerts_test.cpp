#include "rules/alerts.hpp"

#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::len;
using testing::limits;
using testing::Workpiece;
using Seqs = std::vector<std::int64_t>;

std::vector<Cause> causes_of(Workpiece& work) {
  const Engine& engine = work.done();
  return causes(engine, judge(engine));
}

Cause only_cause(Workpiece& work) {
  const auto all = causes_of(work);
  if (all.size() != 1) throw std::runtime_error(std::to_string(all.size()) + " causes, not one");
  return all.front();
}

/// Three mains with 0.0022 to 0.0032 in of clearance; the sizes themselves have no limits.
Workpiece mains() {
  Workpiece work;
  work.spec.unit = Unit::in;
  work.engine.name = "six";
  work.feature("main_bearing", Kind::inside, {}, 3);
  work.feature("main_journal", Kind::outside, {}, 3);
  work.fit("main_clearance", "main_bearing", "main_journal", limits("0.0022 in", "0.0032 in"));
  return work;
}

TEST(OutCause, OfAFitNamesItAndHowFarPastTheLimit) {
  Workpiece work = mains();
  work.read("main_bearing/3", "2.7520 in");
  work.read("main_journal/3", "2.7499 in");
  const Cause cause = only_cause(work);
  EXPECT_EQ(cause.engine, "six");
  EXPECT_EQ(cause.what, AlertWhat::out);
  EXPECT_EQ(cause.severity, Severity::stop);
  EXPECT_EQ(cause.subject, "main_clearance 3");
  EXPECT_EQ(cause.text, "main_clearance 3: clearance 0.0021 in is 0.0001 in under the lower limit 0.0022 in");
  EXPECT_EQ(cause.value, len("0.0021 in"));
  EXPECT_EQ(cause.limit, len("0.0022 in"));
  EXPECT_EQ(cause.seqs, (Seqs{1, 2}));
}

TEST(OutCause, TellsInMillimetresWhereTheSpecDoes) {
  Workpiece work;
  Feature& bore = work.feature("bore", Kind::inside, limits("83.000", "83.035"), 2);
  bore.axes = {"x", "y"};
  bore.out_of_round = len("0.010");
  work.read("bore/2//x", "83.020");
  work.read("bore/2//y", "83.041");
  const Cause cause = only_cause(work);
  EXPECT_EQ(cause.subject, "bore 2");
  EXPECT_EQ(cause.text,
            "bore 2: size 83.041 mm is 0.006 mm over the upper limit 83.035 mm; "
            "out-of-round 0.021 mm is 0.011 mm over the upper limit 0.010 mm");
  EXPECT_EQ(cause.value, len("83.041"));
}

TEST(OutCause, ShowsFinerFiguresWhereTheyDecide) {
  Workpiece half_a_tenth = mains();
  half_a_tenth.read("main_bearing/1", "2.75205 in");
  half_a_tenth.read("main_journal/1", "2.7499 in");
  EXPECT_EQ(only_cause(half_a_tenth).text,
            "main_clearance 1: clearance 0.00215 in is 0.00005 in under the lower limit 0.0022 in");
  Workpiece hair = mains();
  hair.read("main_bearing/1", len("2.7521 in") - Length::from_pm(1));
  hair.read("main_journal/1", "2.7499 in");
  EXPECT_EQ(only_cause(hair).text,
            "main_clearance 1: clearance 0.0022 in is 0.000000001 mm under the lower limit 0.0022 in");
}

TEST(OutCause, TheLabelIsTheBuildersOwnAndLeftOutWhereThereIsOneOnly) {
  Workpiece work;
  work.feature("pin", Kind::outside, limits("51.98", "52.00"), 2).labels = {"L1", "R1"};
  work.feature("deck", Kind::depth, limits("", "0.5"));
  work.read("pin/2", "52.01");
  work.read("deck/1", "0.6");
  const auto all = causes_of(work);
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].subject, "pin R1");
  EXPECT_EQ(all[1].subject, "deck");
}

TEST(OutCause, TellsOnlyOfWhatIsOut) {
  Workpiece work;
  work.feature("pin", Kind::outside, limits("51.98", "52.00")).levels = {"front", "rear"};
  work.read("pin/1/front", "51.980").uncertainty = len("0.001");
  work.read("pin/1/rear", "52.010").uncertainty = len("0.001");
  EXPECT_EQ(only_cause(work).text, "pin: size 52.010 mm is 0.010 mm over the upper limit 52.000 mm");
}

TEST(OutCause, OfASpread) {
  Workpiece work;
  work.feature("main_journal", Kind::outside, {}, 2);
  work.spec.spreads.push_back({"main_journal", len("0.005"), SpreadBy::means});
  work.read("main_journal/1", "60.000");
  work.read("main_journal/2", "60.007");
  const Cause cause = only_cause(work);
  EXPECT_EQ(cause.subject, "spread main_journal");
  EXPECT_EQ(cause.text, "spread main_journal: spread 0.007 mm is 0.002 mm over the upper limit 0.005 mm");
  EXPECT_EQ(cause.seqs, (Seqs{1, 2}));
}

TEST(OutCause, OfACheckAnsweredNo) {
  Workpiece work;
  work.feature("oil_feed_clear", Kind::check, {});
  EXPECT_TRUE(causes_of(work).empty());
  work.engine.answers[{"oil_feed_clear", 1}] = {Answer::no, "chips in it", 9, "", {}};
  const Cause cause = only_cause(work);
  EXPECT_EQ(cause.what, AlertWhat::out);
  EXPECT_EQ(cause.subject, "oil_feed_clear");
  EXPECT_EQ(cause.text, "oil_feed_clear: answered no, chips in it");
  EXPECT_EQ(cause.seqs, Seqs{9});
}

TEST(DoubtfulCause, IsToBeLookedAt) {
  Workpiece work = mains();
  work.read("main_bearing/1", "2.7521 in").uncertainty = len("0.0001 in");
  work.read("main_journal/1", "2.7499 in").uncertainty = len("0.0001 in");
  const Cause cause = only_cause(work);
  EXPECT_EQ(cause.what, AlertWhat::doubtful);
  EXPECT_EQ(cause.severity, Severity::look);
  EXPECT_EQ(cause.text,
            "main_clearance 1: clearance 0.0022 in is nearer to the lower limit 0.0022 in than its uncertainty");
}

TEST(Causes, NothingSpeaksWhileAllIsInOrIncomplete) {
  Workpiece work = mains();
  work.read("main_bearing/1", "2.7525 in");
  EXPECT_TRUE(causes_of(work).empty());
  work.read("main_journal/1", "2.7499 in");
  EXPECT_TRUE(causes_of(work).empty());
}

TEST(SuspectCause, NamesThePlaceTheDoubtsAndWhatToDo) {
  Workpiece work = mains();
  Reading& reading = work.read("main_journal/2", "2.7749 in");
  reading.state = State::suspect;
  reading.doubts = {Doubt::turn, Doubt::repeat};
  const Cause cause = only_cause(work);
  EXPECT_EQ(cause.what, AlertWhat::suspect);
  EXPECT_EQ(cause.severity, Severity::look);
  EXPECT_EQ(cause.subject, "main_journal 2");
  EXPECT_EQ(cause.text,
            "main_journal 2: reading 1 is suspect: the thimble may be whole turns off; it differs too much from the "
            "reading that counted here. tenth void 1 --reason TEXT, or keep or move it");
  EXPECT_EQ(cause.seqs, Seqs{1});
}

TEST(SuspectCause, OneForAllReadingsOfAPlace) {
  Workpiece work = mains();
  for (const char* size : {"27.499 in", "2.7700 in"}) {
    Reading& reading = work.read("main_journal/2", size);
    reading.state = State::suspect;
    reading.doubts = {Doubt::range};
  }
  const Cause cause = only_cause(work);
  EXPECT_EQ(cause.seqs, (Seqs{1, 2}));
  EXPECT_EQ(cause.text,
            "main_journal 2: readings 1, 2 are suspect: the size is far outside what is expected here. tenth void SEQ "
            "--reason TEXT, or keep or move it");
}

TEST(SuspectCause, DoesNotOfferToKeepWhatCannotBeKept) {
  for (const Doubt doubt : {Doubt::no_place, Doubt::wrong_kind, Doubt::no_setting, Doubt::unit}) {
    Workpiece work = mains();
    Reading& reading = work.read("main_journal/2", "2.7499 in");
    reading.state = State::suspect;
    reading.doubts = {doubt};
    EXPECT_TRUE(only_cause(work).text.ends_with("tenth void 1 --reason TEXT, or move it")) << name(doubt);
  }
}

TEST(SuspectCause, WithoutAPlace) {
  Workpiece work = mains();
  Reading& reading = work.read("main_journal/2", "2.7499 in");
  reading.state = State::suspect;
  reading.doubts = {Doubt::no_place};
  reading.place.reset();
  EXPECT_EQ(only_cause(work).subject, "no place");
}

TEST(SuspectCause, WhatAnAlertOfTheGaugeTellsIsNotToldAgainByPlace) {
  for (const Doubt doubt : {Doubt::drift, Doubt::gauge, Doubt::overdue}) {
    Workpiece work;
    work.feature("piston", Kind::outside, {}, 2);
    Reading& reading = work.read("piston/2", "82.96");
    reading.state = State::suspect;
    reading.doubts = {doubt};
    EXPECT_TRUE(causes_of(work).empty()) << name(doubt);
    reading.doubts.push_back(Doubt::range);
    EXPECT_EQ(causes_of(work).size(), 1U) << name(doubt);
  }
}

/// A check that comes before two pistons.
Workpiece guarded(int checks) {
  Workpiece work;
  work.feature("piston", Kind::outside, {}, 2);
  work.feature("rings_gapped", Kind::check, {}, checks).before = {"piston"};
  return work;
}

TEST(EarlyCause, APartMeasuredBeforeItsCheck) {
  Workpiece work = guarded(1);
  EXPECT_TRUE(causes_of(work).empty());
  work.read("piston/2", "82.96");
  const Cause cause = only_cause(work);
  EXPECT_EQ(cause.what, AlertWhat::suspect);
  EXPECT_EQ(cause.subject, "rings_gapped");
  EXPECT_TRUE(cause.text.starts_with("rings_gapped: piston measured before this was answered yes")) << cause.text;
  EXPECT_EQ(cause.seqs, Seqs{1});
}

TEST(EarlyCause, GoesWhenTheCheckIsPassedOrDoesNotApply) {
  Workpiece work = guarded(1);
  work.read("piston/2", "82.96");
  work.engine.answers[{"rings_gapped", 1}].answer = Answer::later;
  EXPECT_EQ(causes_of(work).size(), 1U);
  for (const Answer settled : {Answer::yes, Answer::not_applicable}) {
    work.engine.answers[{"rings_gapped", 1}].answer = settled;
    EXPECT_TRUE(causes_of(work).empty());
  }
}

TEST(EarlyCause, ACheckForEachIndexGuardsItsOwn) {
  Workpiece work = guarded(2);
  work.read("piston/2", "82.96");
  EXPECT_EQ(only_cause(work).subject, "rings_gapped 2");
}

TEST(EarlyCause, OnlyKeptReadingsOfThePresentStage) {
  Workpiece work = guarded(1);
  work.read("piston/2", "82.96").state = State::voided;
  EXPECT_TRUE(causes_of(work).empty());
  work.read("piston/2", "82.96");
  work.begin_stage("piston", "coated", true);
  EXPECT_TRUE(causes_of(work).empty());
}

Cause cause(AlertWhat what, const char* subject, const char* engine = "six") {
  Cause result;
  result.engine = engine;
  result.what = what;
  result.subject = subject;
  return result;
}

Alert alert(std::int64_t id, const Cause& cause, AlertState state = AlertState::open, bool lasting = true) {
  Alert result;
  result.id = id;
  result.cause = cause;
  result.state = state;
  result.lasting = lasting;
  return result;
}

const Cause kOut = cause(AlertWhat::out, "bore 1");

Seqs ended(const std::vector<Alert>& alerts, const std::vector<Cause>& now) {
  return compare(alerts, now).end;
}
std::size_t raised(const std::vector<Alert>& alerts, const std::vector<Cause>& now) {
  return compare(alerts, now).raise.size();
}

TEST(Compare, ANewCauseIsRaisedOnce) {
  const AlertChanges changes = compare({}, std::vector{kOut});
  ASSERT_EQ(changes.raise.size(), 1U);
  EXPECT_EQ(changes.raise.front().subject, "bore 1");
  EXPECT_TRUE(changes.end.empty());
  EXPECT_EQ(raised({alert(5, kOut)}, {kOut}), 0U);
}

TEST(Compare, EngineWhatAndSubjectTellAlertsApart) {
  for (const Cause& other : {cause(AlertWhat::doubtful, "bore 1"), cause(AlertWhat::out, "bore 2"),
                             cause(AlertWhat::out, "bore 1", "four")}) {
    EXPECT_EQ(raised({alert(5, kOut)}, {other}), 1U);
    EXPECT_EQ(ended({alert(5, kOut)}, {other}), Seqs{5});
  }
}

TEST(Compare, ACauseThatGoesEndsItsAlert) {
  EXPECT_EQ(ended({alert(5, kOut)}, {}), Seqs{5});
}

TEST(Compare, AnEndedAlertIsHistory) {
  const Alert old = alert(5, kOut, AlertState::ended, false);
  EXPECT_EQ(ended({old}, {}), Seqs{});
  EXPECT_EQ(raised({old}, {kOut}), 1U);
}

TEST(Compare, AClearedAlertIsSilentWhileItsCauseLasts) {
  const Alert cleared = alert(5, kOut, AlertState::cleared);
  EXPECT_EQ(raised({cleared}, {kOut}), 0U);
  EXPECT_EQ(ended({cleared}, {kOut}), Seqs{});
}

TEST(Compare, AClearedAlertEndsOnceAndItsCauseMayReturn) {
  EXPECT_EQ(ended({alert(5, kOut, AlertState::cleared)}, {}), Seqs{5});
  const Alert gone = alert(5, kOut, AlertState::cleared, false);
  EXPECT_EQ(ended({gone}, {}), Seqs{});
  EXPECT_EQ(raised({gone}, {kOut}), 1U);
}

TEST(Names, OfAlerts) {
  EXPECT_EQ(name(Severity::stop), "stop");
  EXPECT_EQ(name(AlertWhat::drift), "drift");
  EXPECT_EQ(name(AlertState::cleared), "cleared");
}

}  // namespace
}  // namespace tenth
