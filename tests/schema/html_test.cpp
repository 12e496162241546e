#include "html_support.hpp"
#include "sample_bench.hpp"
#include "schema/export/exports.hpp"
#include "schema/export/html/markup.hpp"
#include "schema/export/paper/papers.hpp"
#include "schema/wire/views.hpp"

namespace tenth {
namespace {

std::string page_of(const Bench& bench) {
  return html(paper::build_record(bench, bench.engines.at(sample::kEngine), {bench.seq, sha256("head")}));
}

const std::string& sample_page() {
  static const std::string page = page_of(sample::bench());
  return page;
}

/// The part of the page under one heading.
std::string act(const std::string& title, const std::string& page = sample_page()) {
  const auto from = page.find("<h2>" + title);
  EXPECT_NE(from, std::string::npos) << title;
  return page.substr(from, page.find("<h2>", from + 4) - from);
}

/// The row of a table that holds this text.
std::string row_with(const std::string& page, const std::string& text) {
  const auto at = page.find(text);
  if (at == std::string::npos) return "";
  const auto from = page.rfind("<tr", at);
  return page.substr(from, page.find("</tr>", at) - from);
}

TEST(Html, IsOneWellFormedPage) {
  EXPECT_EQ(sample_page().substr(0, 15), "<!DOCTYPE html>");
  EXPECT_EQ(unbalanced(sample_page()), "");
}

TEST(Html, NeedsNothingFromOutsideAndRunsNothing) {
  for (const char* forbidden : {"<script", "javascript:", "http:", "https:", "src=", "href=", "url(", "@import",
                                "<link", "<iframe", " onload", " onclick"})
    EXPECT_FALSE(has(sample_page(), forbidden)) << forbidden;
}

TEST(Html, EscapesEveryNameAndNote) {
  EXPECT_TRUE(has(sample_page(), "<h1>Job 41 &lt;&quot;blue&quot;&gt; six &amp; &#39;spare&#39;</h1>"));
  EXPECT_FALSE(has(sample_page(), "<\"blue\">"));
  EXPECT_TRUE(has(sample_page(), "measured twice, &lt;this&gt; is right"));
}

TEST(Html, SaysWhichClearancesStandAtTwentyDegrees) {
  EXPECT_FALSE(has(act("Left"), "at 20 °C"));
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  for (Reading& reading : engine.readings) reading.size_20c = reading.size;
  EXPECT_TRUE(has(page_of(bench), ", at 20 °C"));
  EXPECT_TRUE(has(act("Readings", page_of(bench)), "<th>mm at 20 °C</th>"));
  EXPECT_FALSE(has(act("Readings"), "20 °C"));
  const std::string inside = engine.spec->fits.front().inside;
  for (Reading& reading : engine.readings)
    if (reading.place && reading.place->feature != inside) reading.size_20c.reset();
  EXPECT_TRUE(has(page_of(bench), ", inside alone at 20 °C"));
}

TEST(Html, EscapesWhatPeopleAndGaugesSaidWhereverItStands) {
  const std::string bad = "<b onmouseover='x'>\x1b[2J";
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  Spec spec = *engine.spec;
  spec.title = spec.features[0].where = spec.features[0].source = spec.facts[0].first = spec.facts[0].second = bad;
  spec.features[0].levels[0] = spec.features[0].axes[0] = spec.features[0].labels[0] = bad;
  engine.spec = std::make_shared<const Spec>(spec);
  engine.answers.begin()->second.note = bad;
  engine.stages["main_journal"][1].name = bad;
  Reading& reading = engine.readings[0];
  reading.raw = reading.text = reading.stage = bad;
  reading.reason = reading.operator_name = bad;
  bench.gauges["micrometer"].serial = bench.gauges["micrometer"].profile = bad;
  bench.alerts[0].note = bench.alerts[0].cleared_by = bench.alerts[0].cause.text = bad;
  const std::string page = page_of(bench);
  EXPECT_FALSE(has(page, "<b onmouseover"));
  EXPECT_FALSE(has(page, "\x1b"));
  EXPECT_GE(times(page, "&lt;b onmouseover=&#39;x&#39;&gt;\\x1B[2J"), 14U);
  EXPECT_EQ(unbalanced(page), "");
}

TEST(Html, IsOrderedByAct) {
  std::size_t last = 0;
  for (const char* title :
       {"Found", "Decided", "Left", "Rule", "Figures", "Readings", "Gauges", "Cautions", "Signed", "Proof"}) {
    const auto at = sample_page().find(std::string("<h2>") + title);
    ASSERT_NE(at, std::string::npos) << title;
    EXPECT_GT(at, last);
    last = at;
  }
}

TEST(Html, SaysTheWholeVerdictInWordsBesideASign) {
  const auto from = sample_page().find("class=\"whole\"");
  const std::string whole = sample_page().substr(from, sample_page().find("</section>", from) - from);
  EXPECT_TRUE(has(whole, "<svg class=\"sign\""));
  EXPECT_TRUE(has(whole, "</svg>incomplete"));
  EXPECT_TRUE(has(whole, "1 place still to measure"));
  EXPECT_FALSE(has(whole, "out of"));
}

TEST(Html, NamesWhatIsOutAndByHowMuch) {
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  for (Reading& reading : engine.readings)
    if (reading.place->feature == "main_bearing" && reading.place->index == 2) reading.size = sample::um(60'044);
  engine.answers.begin()->second.answer = Answer::no;
  const std::string page = page_of(bench);
  EXPECT_TRUE(has(page, "Main bearing 2: size 60.044 is 0.004 above the upper limit 60.040"));
  EXPECT_TRUE(has(page, "Oil feed clear: the answer is no"));
  EXPECT_TRUE(has(page, "Something lies outside the limits asked for."));
}

TEST(Html, ShowsAsFoundWhatWasWorkedOnAndNothingElse) {
  const std::string found = act("Found");
  EXPECT_TRUE(has(found, "<h3>Main journal</h3>"));
  EXPECT_TRUE(has(found, "<h3>Main clearance</h3>"));
  EXPECT_FALSE(has(found, "<h3>Bore</h3>"));
  EXPECT_FALSE(has(found, "<h3>Piston clearance</h3>"));
  EXPECT_TRUE(has(row_with(found, "<td class=\"number\">60.007</td>"), "</svg>out"));
  EXPECT_TRUE(has(row_with(act("Left"), ">after grinding<"), "</svg>in"));
  EXPECT_TRUE(has(act("Left"), "after grinding (carried over)"));
}

TEST(Html, ShowsAsFoundThePartThatWasThereBefore) {
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  engine.replaced[{"piston", 2}] = {200, 210};
  for (const auto& [seq, um] : {std::pair(205, 82'941), std::pair(215, 82'942)}) {
    engine.readings.push_back(sample::reading(seq, {"piston", 2, "", ""}, sample::um(um)));
    bench.reading_index[seq] = {sample::kEngine, engine.readings.size() - 1};
  }
  const std::string page = page_of(bench), found = act("Found", page), left = act("Left", page);
  EXPECT_TRUE(has(found, "<h3>Piston</h3>"));
  EXPECT_TRUE(has(found, "<h3>Piston clearance</h3>"));
  EXPECT_FALSE(has(found, "82.941")) << "the second part is no longer as found";
  EXPECT_FALSE(has(found, "82.942"));
  EXPECT_FALSE(has(left, "82.941"));
  EXPECT_TRUE(has(left, "82.942"));
}

TEST(Html, SaysWhoHasNoMateAndShowsAsFoundTheFirstPairs) {
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  engine.replaced[{"piston", 2}] = {200};
  engine.mates["piston_clearance"] = {{1, 2}, {2, 0}};
  const std::string page = page_of(bench);
  EXPECT_TRUE(has(act("Left", page), "1 with 2"));
  EXPECT_TRUE(has(act("Left", page), "2, no mate"));
  EXPECT_FALSE(has(act("Found", page), "1 with 2"));
  EXPECT_FALSE(has(act("Found", page), "no mate"));
}

TEST(Html, SaysSoWhereNoStageWasBegun) {
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  engine.stages.clear();
  const std::string found = act("Found", page_of(bench));
  EXPECT_TRUE(has(found, "all was left as found"));
  EXPECT_FALSE(has(found, "<h3>"));
}

TEST(Html, TellsEveryDecisionWithItsReason) {
  const std::string decided = act("Decided");
  EXPECT_TRUE(has(row_with(decided, "<b>after grinding</b> begun 2026-03-04 09:15:00"),
                  "Main journal: earlier readings count"));
  const std::string who = " – second &lt;bench&gt;";
  EXPECT_TRUE(has(row_with(decided, "(ring gap top 6, “3.5”) set aside (void), 2026-03-02 16:30:00"),
                  "read the wrong line" + who));
  EXPECT_TRUE(has(row_with(decided, "moved here from bore 5 bottom pin, 2026-03-02 16:30:00"),
                  "pressed in the wrong bore" + who));
  EXPECT_TRUE(has(
      row_with(decided, "kept although: it differs too much from the reading that counted here, 2026-03-02 16:30:00"),
      "measured twice, &lt;this&gt; is right" + who));
  EXPECT_TRUE(has(row_with(decided, "Alert accepted: bore 2"), "honed last, brush will open it – second bench"));
}

TEST(Html, AMoveKeepsItsReasonThoughTheReadingWasVoidedLater) {
  Bench bench = sample::bench();
  auto& readings = bench.engines.at(sample::kEngine).readings;
  Reading& moved = *std::ranges::find_if(readings, [](const Reading& r) { return r.moved_from.has_value(); });
  moved.state = State::voided;
  moved.reason = "slipped";
  moved.reason_time = "2026-03-03T08:00:00.000000Z";
  const std::string decided = act("Decided", page_of(bench));
  const std::string move = row_with(decided, "moved here from bore 5 bottom pin, 2026-03-02 16:30:00");
  EXPECT_TRUE(has(move, "pressed in the wrong bore"));
  EXPECT_FALSE(has(move, "slipped"));
  EXPECT_TRUE(has(row_with(decided, "(bore 6 bottom pin, “83.012”) set aside (void), 2026-03-03 08:00:00"), "slipped"));
}

TEST(Html, SaysWhichSetupAndWhichMateIsWanted) {
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  auto spec = std::make_shared<Spec>(*engine.spec);
  const auto bore = std::ranges::find(spec->features, "bore", &Feature::name);
  bore->setup = "torque plates fitted";
  engine.spec = spec;
  const std::string page = page_of(bench);
  EXPECT_TRUE(has(page, "Bore: set up (torque plates fitted) was not said"));
  EXPECT_TRUE(has(act("Left", page), "set up not said"));
  EXPECT_TRUE(has(act("Left", page), ". Set up: torque plates fitted"));
  engine.set_up["bore"] = {0};
  EXPECT_FALSE(has(page_of(bench), "was not said"));
  const Fit& fit = spec->fits.front();
  EXPECT_FALSE(has(page_of(bench), ": no mate"));
  engine.mates[fit.name][1] = 0;
  EXPECT_TRUE(has(page_of(bench), ": no mate"));
}

TEST(Html, WhatASetupWasSaidForAsFoundStaysSo) {
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  auto spec = std::make_shared<Spec>(*engine.spec);
  std::ranges::find(spec->features, "main_journal", &Feature::name)->setup = "crank on stands";
  engine.spec = spec;
  engine.set_up["main_journal"] = {0, engine.stages["main_journal"].back().entry};
  EXPECT_FALSE(has(act("Found", page_of(bench)), "set up not said"));
}

TEST(Html, WhatCameFromATableIsNotToldAsMeasuredHere) {
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  Reading row = engine.readings.back();
  row.seq += 1;
  row.time = "2026-04-01T10:00:00.000000Z";
  row.measured_at = "2025-11-20T00:00:00.000000Z";
  row.source = Source::imported;
  row.gauge.reset();
  row.operator_name = "another shop";
  engine.readings.push_back(row);
  const std::string page = page_of(bench);
  const std::string told = row_with(act("Readings", page), "from a table");
  EXPECT_TRUE(has(told, "measured 2025-11-20"));
  const std::string top = page.substr(0, page.find("<h2>"));
  EXPECT_FALSE(has(top, "another shop"));
  EXPECT_FALSE(has(top, "2026-04-01"));
}

TEST(Html, TellsWhatIsSuspectAndWhy) {
  Bench bench = sample::bench();
  Reading& reading = bench.engines.at(sample::kEngine).readings[0];
  reading.state = State::suspect;
  reading.doubts = {Doubt::range, Doubt::repeat};
  const std::string row = row_with(act("Decided", page_of(bench)), "Reading " + std::to_string(reading.seq) + " ");
  EXPECT_TRUE(has(row, "is held as suspect and counts for nothing"));
  EXPECT_TRUE(
      has(row,
          "The size is far outside what is expected here, it differs too much from the reading that counted here: "
          "nobody has decided yet"));
}

TEST(Html, SaysBesideTheVerdictWhatIsUnconfirmedAndWhatIsAway) {
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  for (Reading& reading : engine.readings) reading.closed = true;
  engine.sent["bore"] = {300, "2026-03-04T10:00:00.000000Z", "the <honer>", "hone", {}, 301};
  EXPECT_FALSE(has(page_of(bench), "unconfirmed"));
  EXPECT_FALSE(has(page_of(bench), "<b>away</b>"));
  for (Reading& reading : engine.readings)
    if (reading.place->feature == "bore" && reading.place->index == 1) reading.closed = false;
  engine.sent["bore"].received.reset();
  EXPECT_TRUE(has(page_of(bench), "<b>unconfirmed</b><span>6 readings of bore gauge: no good check"));
  EXPECT_TRUE(has(page_of(bench), "<b>away</b><span>Bore: at the &lt;honer&gt; since 2026-03-04 10:00:00"));
}

TEST(Html, SaysBesideTheVerdictWhatWasNotSaidToBeSetUp) {
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  Spec spec = *engine.spec;
  spec.features[0].setup = "torque <plates>";
  engine.spec = std::make_shared<const Spec>(spec);
  EXPECT_EQ(times(page_of(bench), "Bore: set up (torque &lt;plates&gt;) was not said"), 1U);
  engine.set_up["bore"] = {0};
  EXPECT_FALSE(has(page_of(bench), "was not said"));
}

TEST(Html, AsFoundNothingHadComeBackYet) {
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  engine.sent["main_journal"] = {
      90, "2026-03-04T10:00:00.000000Z", "the grinder", "grind", AskedSize{sample::um(59'988), sample::um(2)}, 91};
  EXPECT_TRUE(has(act("Left", page_of(bench)), "Came back from the grinder, asked for 59.988 within 0.002"));
  EXPECT_FALSE(has(act("Found", page_of(bench)), "Came back"));
}

TEST(Html, SaysWhoseFigureAClaimIs) {
  Bench bench = sample::bench();
  Reading& reading = bench.engines.at(sample::kEngine).readings[0];
  reading.state = State::claimed;
  reading.claimed_by = "the <last> shop";
  EXPECT_TRUE(
      has(act("Readings", page_of(bench)), "<b>claimed</b></td><td class=\"note\">claimed by the &lt;last&gt; shop"));
}

TEST(Html, SaysTheRuleAndWhatTheUncertaintyIs) {
  const std::string rule = act("Rule");
  for (const char* part : {"ISO 14253-1", "k = 2", "root of the sum of squares", "JCGM 106"})
    EXPECT_TRUE(has(rule, part)) << part;
}

TEST(Html, GivesEveryFigureAsTheRecordDoes) {
  const std::string figures = act("Figures");
  const Bench bench = sample::bench();
  const Json check = check_document(bench.engines.at(sample::kEngine));
  std::size_t told = 0;
  for (const char* what : {"features", "fits", "spreads"})
    for (const Json& result : check.at(what))
      for (const auto& [key, value] : result.items())
        if (key.ends_with("_mm") && value.is_number()) {
          EXPECT_TRUE(has(figures, "<td>" + canonical(value) + "</td>")) << what << " " << key;
          ++told;
        }
  EXPECT_GT(told, 100U);
}

TEST(Html, TellsChoicesWithTimeReasonAndWho) {
  Bench bench = sample::bench();
  bench.choices = {
      {300, "decide", sample::kEngine, "2026-03-04T10:00:00.000000Z", "fit the <soft> shells", "ann", "least work"},
      {301, "decide", sample::kEngine, "2026-03-04T10:05:00.000000Z", "lower half changed", "ben", std::nullopt},
      {302, "decide", "another engine", "2026-03-04T10:06:00.000000Z", "scrap it", "ben", "bent"}};
  const std::string decided = act("Decided", page_of(bench));
  const std::string row = row_with(decided, "<td>300</td>");
  EXPECT_TRUE(has(row, "fit the &lt;soft&gt; shells, 2026-03-04 10:00:00"));
  EXPECT_TRUE(has(row, "least work – ann"));
  EXPECT_TRUE(has(row_with(decided, "<td>301</td>"), ">ben</td>"));
  EXPECT_FALSE(has(decided, "scrap it"));
}

TEST(Html, DrawsEveryBoreAndJournalAndSaysHowMuchTheErrorIsEnlarged) {
  const std::string left = act("Left");
  EXPECT_EQ(times(left, "<svg class=\"outline\""), 6U + 7U + 7U);
  EXPECT_EQ(times(left, "Error shown "), 3U);
  EXPECT_EQ(times(left, "class=\"outline\" d="), 6U * 3 + 7 + 7U * 2);
}

TEST(Html, DrawsClearancesAndGapsAgainstTheirLimits) {
  // Six pistons, five gaps, six piston and seven main clearances: figures that have a size and limits.
  EXPECT_EQ(times(act("Left"), "<svg class=\"bar\""), 6U + 5 + 6 + 7);
  EXPECT_TRUE(has(act("Left"), "target 0.060"));
}

TEST(Html, ListsEveryReadingWithWhoWhenWithWhatAndWhatCameOfIt) {
  const std::string readings = act("Readings");
  const Bench bench = sample::bench();
  for (const Reading& reading : bench.engines.at(sample::kEngine).readings)
    EXPECT_TRUE(has(readings, "<td>" + std::to_string(reading.seq) + "</td>")) << reading.seq;
  const std::string slip = row_with(readings, "<td>123</td>");
  for (const char* part :
       {"08:33:30", "ring gap top 6", "as found", "first bench", "micrometer", "<code>  3.5 mm</code>", "3.500",
        "<b>void</b>", "the decimal point may have slipped", "reason: read the wrong line"})
    EXPECT_TRUE(has(slip, part)) << part;
  EXPECT_TRUE(has(row_with(readings, "<td>62</td>"), "kept, replaced"));
}

TEST(Html, SaysWhatItWasMeasuredWithAndHowThatWasSet) {
  const std::string gauges = act("Gauges");
  EXPECT_EQ(times(gauges, "none recorded"), 2U);
  EXPECT_TRUE(has(row_with(gauges, "2026-03-01 08:00:00"), "83.000"));
  EXPECT_TRUE(has(row_with(gauges, "2026-03-01 10:00:00"), "drift 0.001"));
  EXPECT_TRUE(has(row_with(gauges, "2026-03-01 10:00:00"), "good"));
}

TEST(Html, LeavesOutSettingsThatBearOnNoReading) {
  Bench bench = sample::bench();
  Setting before = bench.settings[0], after = bench.settings[1], other = bench.settings[1];
  before.seq = 10;
  before.time = "2026-02-01T00:00:00.000000Z";
  after.seq = 200;
  after.time = "2026-04-01T00:00:00.000000Z";
  other.seq = 30;
  other.gauge = "another gauge";
  other.time = "2026-03-01T05:05:05.000000Z";
  bench.settings.insert(bench.settings.begin(), before);
  bench.settings.push_back(after);
  bench.settings.insert(bench.settings.begin() + 2, other);
  EXPECT_EQ(act("Gauges", page_of(bench)), act("Gauges"));
}

TEST(Html, WritesTheHeadOfTheChainAndHowToVerify) {
  const std::string proof = act("Proof");
  EXPECT_TRUE(has(proof, std::to_string(sample::bench().seq) + ":" + hex(sha256("head"))));
  EXPECT_TRUE(has(proof, "tenth audit --record"));
  EXPECT_TRUE(has(act("Cautions"), "limits are the builder&#39;s") || has(act("Cautions"), "limits are the builder's"));
}

TEST(Html, WritesInchesToTheTenth) {
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  Spec spec = *engine.spec;
  spec.unit = Unit::in;
  engine.spec = std::make_shared<const Spec>(spec);
  const std::string page = page_of(bench);
  EXPECT_TRUE(has(page, "inches"));
  EXPECT_TRUE(has(page, "Asked for: 0.00197 to 0.00315")) << "0.050 to 0.080 mm, which no tenths are";
}

TEST(Html, StandsWithoutAnyReading) {
  Bench bench = sample::bench();
  Engine& engine = bench.engines.at(sample::kEngine);
  engine.readings.clear();
  engine.answers.clear();
  engine.stages.clear();
  bench.alerts.clear();
  const std::string page = page_of(bench);
  EXPECT_EQ(unbalanced(page), "");
  EXPECT_TRUE(has(act("Decided", page), "Nothing had to be decided"));
  EXPECT_TRUE(has(act("Readings", page), "No readings."));
  EXPECT_TRUE(has(act("Gauges", page), "No gauge was used."));
  EXPECT_EQ(times(page, "<svg class=\"outline\""), 0U);
}

TEST(Html, IsTheSameToTheByte) {
  EXPECT_EQ(sample_page(), page_of(sample::bench()));
}

TEST(Html, BearsTheHeadOnEveryPrintedPageAndLetsNoNameIntoTheStyle) {
  Bench bench = sample::bench();
  auto engine = bench.engines.extract(sample::kEngine);
  engine.mapped().name = "a\";} </style><b> \\ \n";
  const std::string page = html(paper::build_record(bench, engine.mapped(), {bench.seq, sha256("head")}));
  EXPECT_EQ(times(page, "</style>"), 1U);
  const auto from = page.find("@bottom-left");
  const std::string margins = page.substr(from, page.find("</style>") - from);
  EXPECT_TRUE(has(margins, "content: \"a\\22 \\3b \\7d  \\3c \\2f style\\3e \\3c b\\3e  \\5c  \\5c x0A\""));
  EXPECT_TRUE(has(margins, "content: \"" + std::to_string(bench.seq) + "\\3a " + hex(sha256("head")) + "\""));
}

TEST(Html, EscapesForTextAndAttributes) {
  EXPECT_EQ(html_page::escaped("<a href=\"x\">&'\n\xFF"), "&lt;a href=&quot;x&quot;&gt;&amp;&#39;\\x0A\xEF\xBF\xBD");
  EXPECT_EQ(html_page::escaped("Ø 83"), "Ø 83");
}

}  // namespace
}  // namespace tenth
