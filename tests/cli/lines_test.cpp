#include "cli/render/lines.hpp"

#include <gtest/gtest.h>

#include "cli/render/gauge.hpp"
#include "cli/render/mark.hpp"

// Lines that answers and events share. A line without colour says all.

namespace tenth::cli {
namespace {

const Ink kPlain(false);

Json place(const Json& more = Json::object()) {
  Json whole = {{"gauge", nullptr}, {"feature", "main_journal"}, {"index", 2},      {"label", "2"}, {"level", "front"},
                {"axis", nullptr},  {"where", nullptr},          {"done", nullptr}, {"of", nullptr}};
  if (!more.is_null()) whole.update(more);
  return whole;
}

TEST(PlaceLine, NamesGaugeProgressAndWhere) {
  EXPECT_EQ(place_line(kPlain, place()), "> next       main_journal 2 front");
  EXPECT_EQ(place_line(kPlain, place({{"gauge", "mic"}})), "> next       mic: main_journal 2 front");
  EXPECT_EQ(place_line(kPlain, place({{"done", 0}, {"of", 7}, {"where", "caps off"}})),
            "> next       main_journal 2 front, 0 of 7 done (caps off)");
}

TEST(PlaceLine, WrapsALongWhere) {
  const std::string where = "0.75 in above the lower edge, square to the pin, skirt clean and at 20 C";
  const Json long_one = place({{"done", 0}, {"of", 7}, {"where", where}});
  EXPECT_EQ(place_line(kPlain, long_one),
            "> next       main_journal 2 front, 0 of 7 done (0.75 in above the lower edge,\n"
            "             square to the pin, skirt clean and at 20 C)");
  EXPECT_EQ(place_line(kPlain, long_one, 10),
            "> next       main_journal 2 front, 0 of 7 done (0.75 in above the\n"
            "                       lower edge, square to the pin, skirt clean and at 20 C)");
}

TEST(PlaceLine, TellsNoPlaceFromTheEndOfARound) {
  const Json none = {{"feature", nullptr}, {"label", nullptr}, {"level", nullptr}};
  EXPECT_EQ(place_line(kPlain, place(none)), "> no place   choose one with 'tenth at' or 'tenth round'");
  auto through = none;
  through.update({{"done", 7}, {"of", 7}});
  EXPECT_EQ(place_line(kPlain, place(through)), "> no place   the round is through, 7 of 7 done");
}

Json reading(const Json& more = Json::object()) {
  Json whole = {{"seq", 9},         {"feature", "bore"}, {"label", "L1"},   {"gauge", nullptr},       {"unit", "mm"},
                {"value_mm", 0.01}, {"size_mm", 83.01},  {"state", "kept"}, {"doubts", Json::array()}};
  if (!more.is_null()) whole.update(more);
  return whole;
}

TEST(ReadingLine, PrefersTheSizeToTheValue) {
  EXPECT_EQ(reading_line(kPlain, reading(), std::nullopt), "+ kept       bore L1  83.010 mm  #9");
  EXPECT_EQ(reading_line(kPlain, reading({{"size_mm", nullptr}}), std::nullopt),
            "+ kept       bore L1  shows 0.010 mm  #9");
}

TEST(ReadingLine, IsInTheGaugesUnitUnlessAnotherIsAsked) {
  EXPECT_EQ(reading_line(kPlain, reading({{"unit", "in"}, {"size_mm", 25.4}}), std::nullopt),
            "+ kept       bore L1  1.0000 in  #9");
  EXPECT_EQ(reading_line(kPlain, reading({{"size_mm", 25.4}}), Unit::in), "+ kept       bore L1  1.0000 in  #9");
}

TEST(ReadingLine, NamesVerdictDoubtsAndWayToGo) {
  EXPECT_EQ(reading_line(kPlain, reading({{"verdict", "out"}}), std::nullopt),
            "+ kept       bore L1  83.010 mm  ! out  #9");
  EXPECT_EQ(reading_line(kPlain, reading({{"state", "suspect"}, {"doubts", {"turn", "repeat"}}}), std::nullopt),
            "? suspect    bore L1  83.010 mm  turn, repeat  #9");
  EXPECT_EQ(reading_line(kPlain, reading({{"to_go_mm", -0.004}}), std::nullopt),
            "+ kept       bore L1  83.010 mm  -0.004 mm to go  #9");
}

TEST(AnswerLine, HasASignForEachWord) {
  const auto line = [](const char* word) {
    return answer_line(kPlain, {{"feature", "oil_feed"}, {"label", nullptr}, {"answer", word}, {"note", nullptr}});
  };
  EXPECT_EQ(line("yes"), "+ yes        oil_feed");
  EXPECT_EQ(line("no"), "! no         oil_feed");
  EXPECT_EQ(line("later"), ". later      oil_feed");
}

TEST(AlertLine, HasASignForEachState) {
  const auto line = [](const char* state, const char* severity) {
    return alert_line(kPlain, {{"id", 5}, {"state", state}, {"severity", severity}, {"text", "t"}, {"note", nullptr}});
  };
  EXPECT_EQ(line("open", "stop"), "! stop       t  #5");
  EXPECT_EQ(line("open", "look"), "? look       t  #5");
  EXPECT_EQ(line("ended", "stop"), "- ended      t  #5");
  EXPECT_EQ(line("cleared", "stop"), "- cleared    t  #5");
}

TEST(Marks, DifferInSignAndWordWhereverTheyDifferInColour) {
  const std::vector<Mark> verdicts = {verdict_mark("in"), verdict_mark("doubtful"), verdict_mark("out"),
                                      verdict_mark("incomplete"), verdict_mark("")};
  for (const auto& one : verdicts)
    for (const auto& other : verdicts) {
      if (&one == &other) continue;
      EXPECT_NE(one.sign, other.sign);
      EXPECT_NE(one.word, other.word);
    }
}

TEST(Marks, TakeTheirColumnsWhetherInkedOrNot) {
  EXPECT_EQ(inked(kPlain, verdict_mark("in")), "+ in         ");
  EXPECT_EQ(inked(kPlain, verdict_mark("incomplete")), ". incomplete ");
  EXPECT_EQ(inked(Ink(true), verdict_mark("in")), "\033[32m+ in\033[0m         ");
  EXPECT_EQ(inked(kPlain, {"!", "a word past its columns", Tone::bad}, 4), "! a word past its columns ");
}

TEST(SettingText, TellsWaitingSetAndNotSet) {
  Json gauge = {{"reads", "deviation"}, {"awaits", nullptr}, {"setting", nullptr}};
  EXPECT_EQ(setting_text(gauge, Unit::mm), "not set");
  gauge["reads"] = "size";
  EXPECT_EQ(setting_text(gauge, Unit::mm), "");
  gauge["setting"] = {{"master_mm", 25.4}, {"age_s", 61}};
  EXPECT_EQ(setting_text(gauge, Unit::in), "set on 1.0000 in, 61 s ago");
  gauge["awaits"] = "recheck";
  EXPECT_EQ(setting_text(gauge, Unit::in), "waits for its recheck");
}

}  // namespace
}  // namespace tenth::cli
