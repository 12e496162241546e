#include "cli/bench/screen.hpp"

#include <gtest/gtest.h>

#include <set>

#include "cli/bench/letters.hpp"
#include "cli/render/text.hpp"
#include "tests/cli/bench/sample_bench.hpp"

namespace tenth::cli {
namespace {

using Lines = std::vector<std::string>;

Lines drawn(const Json& bench, const ScreenState& state = {}) {
  const Grid grid = draw_bench(bench, state);
  EXPECT_EQ(grid.rows(), state.rows);
  Lines lines;
  for (int row = 0; row < grid.rows(); ++row) {
    lines.push_back(grid.text(row));
    EXPECT_EQ(static_cast<int>(grid.row(row).size()), state.columns);
    for (const Cell& cell : grid.row(row)) EXPECT_EQ(width(cell.text), 1U) << row;
  }
  return lines;
}

const ScreenState kAscii{24, 80, false, std::nullopt, ""};

/// The sample with keys of its place, or of its last reading, changed.
Json with(const char* array, const Json& changes) {
  Json bench = sample_bench();
  bench[array][0].update(changes);
  return bench;
}

TEST(BenchScreen, ShowsPlaceSizeLimitsAndWhatComesNext) {
  const Lines expected = {"J18  Straight six  as found  ann                                            live",
                          "--------------------------------------------------------------------------------",
                          "######      ####    ######    ########        ########",
                          "##    ##  ##    ##  ##    ##  ##                      ##",
                          "######    ##    ##  ######    ######            ######",
                          "##    ##  ##    ##  ##  ##    ##                      ##",
                          "######      ####    ##    ##  ########        ########",
                          "",
                          "#####  ##  ###     ##### #  # ###  #  #  ### #####",
                          "  #   #  # #  #      #   #  # #  # #  # #      #",
                          "  #   #  # ###       #   #### ###  #  #  ##    #",
                          "  #   #  # #         #   #  # # #  #  #    #   #",
                          "  #    ##  #         #   #  # #  #  ##  ###    #",
                          "last: bore 2 bottom pin, in ----------------------------------------------------",
                          "          ########          ##########    ######      ##    ########",
                          "low               ##                ##  ##      ##  ####            ##      high",
                          "3.7805      ######                ##      ######      ##      ######      3.7815",
                          "                  ##  ####      ##      ##      ##    ##            ##",
                          "          ########    ####      ##        ######    ######  ########",
                          "+ in, two tenths under the upper limit",
                          "next  bore 3 top pin   12 of 36 done",
                          "bore   1 +  2 ?  3 >.  4 ?  5 -  6 -",
                          "+ bore-gauge open, set 4 min ago",
                          "n next  b back  u undo  q quit     + in  ! out  ? look  . part  - unread  > here"};
  EXPECT_EQ(drawn(sample_bench(), kAscii), expected);
}

TEST(BenchScreen, DrawsWithBlocksWhereTheLocaleHasThem) {
  const Lines lines = drawn(sample_bench());
  EXPECT_TRUE(lines[2].starts_with("██████      ████    ██████")) << lines[2];
  EXPECT_TRUE(lines[1].starts_with("────────")) << lines[1];
}

TEST(BenchScreen, InAsciiNothingElseIsWritten) {
  for (const std::string& line : drawn(sample_bench(), kAscii))
    for (const char c : line) EXPECT_TRUE(c >= 0x20 && c < 0x7F) << line;
}

TEST(BenchScreen, ASuspectReadingSaysWhyAndHowToKeepItInsteadOfWhatComesNext) {
  Json bench =
      with("last", {{"state", "suspect"}, {"why", {"it does not repeat", "the decimal point may have slipped"}}});
  bench["suspects"] = 1;
  const Lines lines = drawn(bench);
  EXPECT_EQ(lines[19], "? SUSPECT: it does not repeat, the decimal point may have slipped");
  EXPECT_EQ(lines[20], "measure again, or: tenth keep 41 --reason TEXT");
  EXPECT_EQ(lines[21], "? 1 suspect reading  keep, move or void");
  EXPECT_TRUE(lines[0].ends_with("1 suspect  live")) << lines[0];
  EXPECT_EQ(draw_bench(bench, {}).row(19)[0].look, Look::alarm);
}

TEST(BenchScreen, AVerdictIsASignAndAWord) {
  const auto said = [](const Json& changes) { return drawn(with("last", changes))[19]; };
  EXPECT_EQ(said({{"size_verdict", "out"}, {"verdict", "out"}, {"against", "two tenths over the upper limit"}}),
            "! OUT, two tenths over the upper limit");
  EXPECT_EQ(said({{"size_verdict", "doubtful"}, {"against", "on the upper limit"}}), "? doubtful, on the upper limit");
  EXPECT_EQ(said({{"verdict", "out"}}), "+ in, two tenths under the upper limit; bore 2 is out");
  EXPECT_EQ(said({{"size_verdict", nullptr}, {"against", nullptr}, {"verdict", nullptr}}), "+ kept");
  EXPECT_EQ(said({{"state", "void"}, {"reason", "dirt"}}), "x void: dirt");
  EXPECT_EQ(
      drawn(with("last",
                 {{"shown", {{"size", "3.7813"}, {"low", nullptr}, {"high", nullptr}, {"target", "3.7815"}}}}))[19],
      "+ in, two tenths under the upper limit                             target 3.7815");
}

TEST(BenchScreen, WhatIsToStopForComesFirst) {
  Json bench = sample_bench();
  bench["places"][0]["level"] = bench["places"][0]["axis"] = nullptr;  // more room
  bench["places"][0]["to_set"] = {"mic"};
  bench["alerts"] = {{{"id", 7}, {"severity", "look"}, {"text", "mic: overdue"}},
                     {{"id", 8}, {"severity", "stop"}, {"text", "bore 3 is out"}}};
  const Lines lines = drawn(bench);
  EXPECT_EQ(lines[16], "! STOP bore 3 is out  #8");
  EXPECT_EQ(lines[17], "? set it first: tenth master mic SIZE");
  EXPECT_EQ(lines[18], "? look mic: overdue  #7");
  EXPECT_TRUE(lines[0].ends_with("2 alerts  live")) << lines[0];
  EXPECT_EQ(draw_bench(bench, {}).row(16)[0].look, Look::alarm);
}

/// The sample with all that can be open: bores to be set up, their parts away, figures claimed, gauges unchecked.
Json with_all_open() {
  Json bench = sample_bench();
  bench["places"][0]["level"] = bench["places"][0]["axis"] = nullptr;  // more room
  bench["away"] = {{{"feature", "bore"}, {"to", "the grinder"}, {"ask", "hone to 3.7810"}}};
  bench["unconfirmed"] = {{{"gauge", "dial"}, {"readings", 7}}};
  bench["plan"][0]["setup"] = "torque plates fitted";
  bench["plan"][0]["indexes"][0]["unconfirmed"] = true;
  bench["plan"].push_back(
      {{"feature", "main_journal"},
       {"claimed_by", {"another shop"}},
       {"indexes", {{{"index", 1}, {"label", "1"}, {"state", "claimed"}, {"unconfirmed", false}}}}});
  return bench;
}

TEST(BenchScreen, WhatIsOpenIsAlwaysInViewEachWithASignAndAWord) {
  EXPECT_EQ(drawn(with_all_open(), kAscii)[1],
            "^ away: bore  # set up first: bore  ~ unconfirmed: dial  \" claimed: main journal");
  EXPECT_EQ(draw_bench(with_all_open(), {}).row(1)[0].look, Look::strong);
  Json one = with_all_open();
  one["away"] = Json::array();
  one["plan"].erase(1);
  EXPECT_EQ(drawn(one, kAscii)[1], "# set up first: bore  ~ unconfirmed: dial --------------------------------------");
}

TEST(BenchScreen, AtThePlaceItSaysWhatKeepsAReadingFromCounting) {
  Json bench = with_all_open();
  bench["places"][0]["where"] = "plates at torque";
  EXPECT_EQ(drawn(bench)[7], "^ AWAY at the grinder: readings are suspect  # SET UP FIRST: torque plates fitt~");
  EXPECT_EQ(draw_bench(bench, {}).row(7)[0].look, Look::alarm);
  bench["away"] = Json::array();
  EXPECT_EQ(drawn(bench)[7], "# SET UP FIRST: torque plates fitted  plates at torque");
  bench["places"][0]["feature"] = "main_journal";
  EXPECT_EQ(drawn(bench)[7], "plates at torque");
}

TEST(BenchScreen, ThePlanMarksWhatIsAwayClaimedAndUnconfirmed) {
  Json bench = with_all_open();
  Lines lines = drawn(bench);
  EXPECT_EQ(lines[16], "bore   1 ^~  2 ^  3 >^  4 ^  5 ^  6 ^");
  EXPECT_EQ(lines[17], "^ away: bore is at the grinder: hone to 3.7810");
  EXPECT_EQ(lines[18], "# set up first: bore, torque plates fitted: tenth setup bore yes");
  EXPECT_EQ(lines[19], "~ unconfirmed: 7 readings of dial: tenth recheck dial");
  EXPECT_EQ(lines[20], "\" claimed: main journal by another shop, not judged");
  EXPECT_EQ(lines[21], "main journal   1 \"");
  bench["away"] = Json::array();
  EXPECT_EQ(drawn(bench)[16], "bore   1 +~  2 ?  3 >.  4 ?  5 -  6 -");
}

TEST(BenchScreen, WhenTheDaemonIsGoneItSaysHowOldItIs) {
  const Lines lines = drawn(sample_bench(), {24, 80, false, 12, ""});
  EXPECT_TRUE(lines[0].ends_with("! STALE")) << lines[0];
  EXPECT_TRUE(lines[1].starts_with("! the daemon is gone: this is 12 s old, and nothing is stored now")) << lines[1];
}

TEST(BenchScreen, TheEndOfARoundAndNoPlaceAtAll) {
  const Json through = {{"feature", nullptr}, {"index", nullptr}, {"label", nullptr},
                        {"level", nullptr},   {"axis", nullptr},  {"done", 36},
                        {"words", nullptr},   {"next", nullptr},  {"recheck", {"bore-gauge"}}};
  const Lines done = drawn(with("places", through));
  EXPECT_EQ(done[15], "the round is through   36 of 36 done");
  EXPECT_EQ(done[16], "? check it now: tenth recheck bore-gauge");
  Json none = with("places", through);
  none["places"][0].update({{"of", 0}, {"recheck", Json::array()}});
  none["last"] = Json::array();
  const Lines empty = drawn(none);
  EXPECT_EQ(empty[7], "choose one: tenth at FEATURE ..., tenth round FEATURE");
  EXPECT_EQ(empty[14], "nothing was read yet");
}

TEST(BenchScreen, TheGaugeReadLastHasItsPlaceInViewAndOthersALine) {
  Json bench = sample_bench();
  Json own = sample_place();
  own.update({{"gauge", "mic"},
              {"feature", "main_journal"},
              {"label", "2"},
              {"level", nullptr},
              {"axis", nullptr},
              {"done", 1},
              {"of", 7},
              {"words", "main journal 2"},
              {"next", "main journal 3"}});
  bench["places"].push_back(own);
  EXPECT_EQ(gauge_in_view(bench), nullptr);
  Lines lines = drawn(bench);
  EXPECT_EQ(lines[21], "mic: main journal 2   1 of 7 done");
  bench["last"][0]["gauge"] = "mic";
  EXPECT_EQ(gauge_in_view(bench), "mic");
  lines = drawn(bench);
  EXPECT_EQ(lines[15], "next  main journal 3   1 of 7 done");
  EXPECT_EQ(lines[16], "common: bore 3 top thrust   12 of 36 done");
}

TEST(BenchScreen, WhatIsTooLongForBigLettersIsWrittenSmall) {
  const Lines lines =
      drawn(with("places", {{"feature", "intermediate_shaft_bearing_bore"}, {"label", "3\xC3\xA4"}}), kAscii);
  EXPECT_EQ(lines[4], "intermediate shaft bearing bore 3\xC3\xA4");
  EXPECT_EQ(lines[2], "");
}

TEST(BenchScreen, TheWayAGaugeIsReachedIsShown) {
  const auto said = [](const Json& changes) { return drawn(with("gauges", changes))[22]; };
  EXPECT_EQ(said({{"state", "gone"}, {"why", "unplugged"}, {"setting", nullptr}}), "! bore-gauge gone: unplugged");
  EXPECT_EQ(said({{"awaits", "master"}}), "+ bore-gauge open, waits for its master");
  EXPECT_EQ(said({{"setting", nullptr}, {"reads", "deviation"}}), "+ bore-gauge open, not set");
  EXPECT_EQ(said({{"overdue", true}}), "+ bore-gauge open, set 4 min ago, calibration overdue");
}

TEST(BenchScreen, WhatIsDoneToThePartIsShownWithThePlaceAndWhatIsLeftOfTheRound) {
  const Lines lines = drawn(with("places", {{"where", "caps at torque"}, {"left_s", 300}}));
  EXPECT_EQ(lines[7], "caps at torque");
  EXPECT_EQ(lines[20], "next  bore 3 top pin   12 of 36 done, 5 min left");
}

TEST(BenchScreen, TheAnswerToAKeyStandsInsteadOfTheHelp) {
  EXPECT_EQ(drawn(sample_bench(), {24, 80, true, {}, "! no round; begin one"})[23], "! no round; begin one");
}

TEST(BenchScreen, ALargerTerminalHasLargerLetters) {
  const Lines lines = drawn(sample_bench(), {48, 160, false, {}, ""});
  EXPECT_TRUE(lines[2].starts_with("############            ########        ############")) << lines[2];
  EXPECT_EQ(lines[3], lines[2]);
  EXPECT_EQ(lines[34], "+ in, two tenths under the upper limit");
}

TEST(BenchScreen, ASmallTerminalHasPlainLines) {
  const Lines expected = {"! STALE 3 s",
                          "J18  Straight six  as found  ann",
                          "bore 3 top thrust",
                          "last: bore 2 bottom pin 3.7813",
                          "+ in, two tenths under the upper lim~",
                          "next  bore 3 top pin   12 of 36 done",
                          "+ bore-gauge open, set 4 min ago",
                          "n next  b back  u undo  q quit"};
  EXPECT_EQ(drawn(sample_bench(), {8, 37, true, 3, ""}), expected);
}

TEST(BenchScreen, NoSizeOfTerminalIsTooSmallAndNoAnswerTooStrange) {
  for (int rows = 0; rows < 30; ++rows)
    for (const int columns : {0, 1, 7, 79, 80, 81}) {
      drawn(sample_bench(), {rows, columns, true, 1, "m"});
      drawn(Json::object(), {rows, columns, true, {}, ""});
    }
  EXPECT_EQ(drawn(Json::object())[0].substr(0, 19), "no engine in use: t");
}

TEST(BigLetters, EveryLetterIsDrawnOnceAndHasFiveEvenRows) {
  std::set<Lines> seen;
  for (const char c : std::string("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.-+/")) {
    const Lines rows = big_letters(std::string(1, c));
    ASSERT_EQ(rows.size(), 5U) << c;
    for (const std::string& row : rows) EXPECT_EQ(row.size(), rows[0].size()) << c;
    EXPECT_TRUE(seen.insert(rows).second) << c << " looks like another";
  }
  EXPECT_EQ(big_letters("bore"), big_letters("BORE"));
  EXPECT_TRUE(big_letters("b\xC3\xB6re").empty());
  EXPECT_EQ(big_letters("1.")[4], "### ##");
}

}  // namespace
}  // namespace tenth::cli
