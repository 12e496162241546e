#include "tests/rules/published.hpp"

namespace tenth {
namespace {

using testing::clearance;
using testing::Ends;
using testing::ends;
using testing::len;
using testing::limits;
using testing::Published;
using testing::published;
using testing::Workpiece;

// X1 to X16 are the worked examples of the trade's manuals; X16, six readings of our own, is in form_test. X5 is a
// lookup in one engine's chart.

TEST(WorkedExamples, ClearancesFromSizes) {
  for (const Published& example : published().at("worked_examples")) {
    const auto unit = example.at("unit").get<std::string>();
    const Length undersize =
        example.contains("undersize") ? len(example.at("undersize").get<std::string>() + unit) : Length();
    Ends inside = ends(example.at("inside"), unit);
    inside = {inside.least - undersize, inside.most - undersize};  // a pair of shells takes all of it from the bore
    const Ends shell = example.contains("shell") ? ends(example.at("shell"), unit) : Ends{};
    const Ends found = clearance(inside, ends(example.at("outside"), unit), shell);
    const Ends expected = ends(example.at("expect"), unit);
    EXPECT_EQ(found.least, expected.least) << example;
    EXPECT_EQ(found.most, expected.most) << example;
  }
}

TEST(WorkedExamples, X1AClearanceAsAShareOfTheShaft) {
  const Length share = Length::from_pm(divide_rounded(len("2.375 in").pm(), 1000));
  EXPECT_EQ(share, len("0.002375 in"));
  EXPECT_EQ(fixed(share, Unit::in, usual_places(Unit::in)), "0.0024");
}

TEST(WorkedExamples, X2LimitsFromAShareJudgeAShaftOfTwoInches) {
  const auto verdict = [](const char* bearing, const char* most) {
    Workpiece work;
    work.feature("bearing", Kind::inside, {});
    work.feature("shaft", Kind::outside, {});
    work.fit("clearance", "bearing", "shaft", limits("0.0015 in", most));
    work.read("shaft/1", "2.0000 in");
    work.read("bearing/1", bearing);
    return work.fitted().verdict;
  };
  EXPECT_EQ(verdict("2.0015 in", "0.0020 in"), Verdict::in);
  EXPECT_EQ(verdict("2.0020 in", "0.0020 in"), Verdict::in);
  EXPECT_EQ(verdict("2.0021 in", "0.0020 in"), Verdict::out);
  EXPECT_EQ(verdict("2.0025 in", "0.0025 in"), Verdict::in);  // 0.0005 more for high output
}

TEST(WorkedExamples, X4RingGapsForAFourInchBore) {
  const std::pair<const char*, const char*> rules[] = {
      {"0.004", "0.016"}, {"0.005", "0.020"}, {"0.0055", "0.022"}, {"0.006", "0.024"}, {"0.007", "0.028"}};
  for (const auto& [per_inch, gap] : rules)
    EXPECT_EQ(len(std::string(per_inch) + " in") * 4, len(std::string(gap) + " in"));
}

TEST(WorkedExamples, X6AStackOfHeightsIsExact) {
  EXPECT_EQ(len("0.25 in") + len("1.5 in") + len("4 in") + len("0.5 in"), len("6.25 in"));
}

/// X10: the sizes of the parts allow more than the printed clearance, so parts that are each in may be out together.
TEST(WorkedExamples, X10PartsWithinTheirSizesMayStillBeOut) {
  Workpiece work;
  work.feature("bearing", Kind::inside, limits("4.5009 in", "4.5040 in"));
  work.feature("journal", Kind::outside, limits("4.4985 in", "4.500 in"));
  work.fit("clearance", "bearing", "journal", limits("0.0015 in", "0.005 in"));
  work.read("bearing/1", "4.5009 in");
  work.read("journal/1", "4.500 in");
  const Report report = judge(work.done());
  EXPECT_EQ(report.features[0].verdict, Verdict::in);
  EXPECT_EQ(report.features[1].verdict, Verdict::in);
  EXPECT_EQ(report.fits[0].verdict, Verdict::out);
  EXPECT_EQ(report.verdict, Verdict::out);
}

/// X14: only chosen pairs of piston and bore meet the printed clearance.
TEST(WorkedExamples, X14PistonsMustBeMatched) {
  const auto verdict = [](const char* bore, const char* piston) {
    Workpiece work;
    work.feature("bore", Kind::inside, {});
    work.feature("piston", Kind::outside, {});
    work.fit("clearance", "bore", "piston", limits("0.025", "0.045"));
    work.read("bore/1", bore);
    work.read("piston/1", piston);
    return work.fitted().verdict;
  };
  EXPECT_EQ(verdict("87.20", "87.215"), Verdict::out);
  EXPECT_EQ(verdict("87.20", "87.175"), Verdict::in);
  EXPECT_EQ(verdict("87.25", "87.215"), Verdict::in);
  EXPECT_EQ(verdict("87.25", "87.165"), Verdict::out);
}

}  // namespace
}  // namespace tenth
