#include "cli/speak/composer.hpp"

#include <gtest/gtest.h>

#include "schema/speech/speech_file.hpp"

namespace tenth::cli {
namespace {

Composer composer(Level level = Level::full, const std::string& language = "en",
                  std::optional<Unit> unit = std::nullopt) {
  for (const ShippedSpeech& each : shipped_speech())
    if (each.language == language) return {parse_speech(each.text, language).value(), level, unit};
  throw std::runtime_error("no such language");
}

Json reading(const Json& more = {}) {
  Json event = {
      {"event", "reading"},   {"seq", 41},        {"feature", "bore"},       {"index", 3},      {"label", "3"},
      {"level", "top"},       {"axis", "thrust"}, {"gauge", "bg"},           {"unit", "in"},    {"value_mm", 0.00254},
      {"size_mm", 109.47908}, {"state", "kept"},  {"doubts", Json::array()}, {"verdict", "in"}, {"to_go_mm", nullptr}};
  event.update(more.is_null() ? Json::object() : more);
  return event;
}

Json place(const Json& more = {}) {
  Json event = {{"event", "place"}, {"gauge", nullptr}, {"feature", "bore"}, {"index", 3}, {"label", "3"},
                {"level", "top"},   {"axis", "pin"},    {"done", 13},        {"of", 36},   {"where", nullptr}};
  event.update(more.is_null() ? Json::object() : more);
  return event;
}

Json through(const Json& gauge = nullptr) {
  return place({{"gauge", gauge},
                {"feature", nullptr},
                {"index", nullptr},
                {"label", nullptr},
                {"level", nullptr},
                {"axis", nullptr},
                {"done", 36}});
}

Json alert(const std::string& what, const std::string& subject, const Json& more = {}) {
  Json event = {{"event", "alert"},
                {"id", 7},
                {"severity", what == "out" || what == "drift" ? "stop" : "look"},
                {"what", what},
                {"subject", subject},
                {"text", "in the daemon's words"},
                {"value_mm", nullptr},
                {"limit_mm", nullptr},
                {"state", "open"}};
  event.update(more.is_null() ? Json::object() : more);
  return event;
}

const Json kTooTight = {{"value_mm", 0.04064}, {"limit_mm", 0.04572}};  // 0.0016 and 0.0018 in

std::string said(const std::vector<Json>& moment, Level level = Level::full, const std::string& language = "en") {
  return composer(level, language).compose(moment).text;
}

TEST(Composed, AStoredReadingSaysPlaceSizeAndWhatComesNext) {
  Composer voice = composer();
  const Utterance utterance = voice.compose({reading(), place()});
  EXPECT_EQ(utterance.text, "bore three top thrust: four three ten and two tenths. Next bore three top pin");
  EXPECT_EQ(utterance.sound, Sound::stored);
  EXPECT_EQ(utterance.rank, Rank::stored);
  EXPECT_FALSE(utterance.notice);
}

TEST(Composed, BrieflyOnlySizeAndWhatIsNew) {
  EXPECT_EQ(said({reading(), place()}, Level::brief), "four three ten and two tenths. Next top pin");
  EXPECT_EQ(said({reading(), place({{"label", "4"}})}, Level::brief),
            "four three ten and two tenths. Next bore four top pin");
  EXPECT_EQ(said({reading(), place({{"label", "4"}, {"level", nullptr}, {"axis", nullptr}})}, Level::brief),
            "four three ten and two tenths. Next bore four");
}

TEST(Composed, TonesAlone) {
  const Utterance utterance = composer(Level::tones).compose({reading(), place()});
  EXPECT_EQ(utterance.text, "");
  EXPECT_EQ(utterance.sound, Sound::stored);
}

TEST(Composed, InGerman) {
  EXPECT_EQ(
      said({reading({{"unit", "mm"}, {"size_mm", 83.012}}), place()}, Level::full, "de"),
      "Zylinder drei oben Druckseite: dreiundachtzig Komma null eins zwei. Weiter: Zylinder drei oben Bolzenrichtung");
  EXPECT_EQ(said({reading({{"state", "suspect"}, {"doubts", {"turn"}}, {"unit", "mm"}, {"size_mm", 83.512}})},
                 Level::full, "de"),
            "Verdächtig. Zylinder drei oben Druckseite, dreiundachtzig Komma fünf eins zwei: vielleicht eine Umdrehung "
            "daneben. "
            "Noch einmal messen, oder Nummer einundvierzig behalten");
  EXPECT_EQ(said({alert("out", "main_clearance 3", {{"value_mm", 0.04}, {"limit_mm", 0.045}})}, Level::full, "de"),
            "Halt. Hauptlagerspiel drei passt nicht, fünf Mikrometer darunter");
}

TEST(Composed, ASuspectReadingSaysWhyAndHowToKeepIt) {
  const Json suspect = reading({{"state", "suspect"}, {"doubts", {"tenfold", "repeat"}}, {"verdict", nullptr}});
  const Utterance full = composer().compose({suspect, alert("suspect", "bore 3")});
  EXPECT_EQ(full.text,
            "Suspect. bore three top thrust, four three ten and two tenths: the decimal point may have slipped, it "
            "does not repeat. "
            "Measure again, or keep number forty-one");
  EXPECT_EQ(full.sound, Sound::suspect);
  EXPECT_EQ(full.rank, Rank::suspect);
  EXPECT_EQ(said({suspect}, Level::brief), "Suspect: the decimal point may have slipped, it does not repeat");
}

TEST(Composed, WhatKeepDoesNotAnswerHasAnotherRemedy) {
  const auto remedy = [](const char* doubt) {
    const std::string text =
        said({reading({{"state", "suspect"}, {"doubts", {"repeat", doubt}}, {"size_mm", nullptr}})});
    return text.substr(text.rfind(". ") + 2);
  };
  EXPECT_EQ(remedy("no_place"), "Choose the place, then move it there");
  EXPECT_EQ(remedy("no_setting"), "Set the gauge on its master, then measure again");
  EXPECT_EQ(remedy("wrong_kind"), "Measure again with the right gauge");
  EXPECT_EQ(remedy("unit"), "Measure again with the right gauge");
  EXPECT_EQ(remedy("drift"), "Measure again, or keep number forty-one");
}

TEST(Composed, WhatIsOutIsSaidFirstAndOutranksTheRest) {
  const Utterance utterance =
      composer().compose({reading({{"verdict", "out"}}), place(), alert("out", "main_clearance 3", kTooTight)});
  EXPECT_EQ(
      utterance.text,
      "Stop. main clearance three is out, two tenths under. bore three top thrust: four three ten and two tenths. "
      "Next bore three top pin");
  EXPECT_EQ(utterance.sound, Sound::out);
  EXPECT_EQ(utterance.rank, Rank::stop);
}

TEST(Composed, AReadingThatIsStillOutSaysSoWithoutItsAlert) {
  EXPECT_EQ(said({reading({{"verdict", "out"}})}),
            "Stop. bore three is out. bore three top thrust: four three ten and two tenths");
  EXPECT_EQ(said({reading({{"verdict", "doubtful"}})}),
            "bore three is doubtful. bore three top thrust: four three ten and two tenths");
  EXPECT_EQ(composer().compose({reading({{"verdict", "doubtful"}})}).sound, Sound::suspect);
}

TEST(Composed, WhatIsLeftToTheTargetIsSaid) {
  EXPECT_EQ(said({reading({{"to_go_mm", 0.0127}})}),
            "bore three top thrust: four three ten and two tenths. five tenths to go");
  EXPECT_EQ(said({reading({{"to_go_mm", -0.0254}})}),
            "bore three top thrust: four three ten and two tenths. one thou past the target");
  EXPECT_EQ(said({reading({{"to_go_mm", 0}})}), "bore three top thrust: four three ten and two tenths");
}

TEST(Composed, WhatIsLeftToFileIsSaidWhateverTheLevel) {
  const Json gap = {
      {"unit", "in"}, {"feature", "ring_gap_top"}, {"size_mm", 0.4064}, {"level", nullptr}, {"axis", nullptr}};
  Json left = gap;
  left["to_file_mm"] = 0.0508;
  left["to_go_mm"] = 1;
  EXPECT_EQ(said({reading(left)}, Level::brief), "sixteen thou. two thou to file");
  left["to_file_mm"] = -0.00508;
  EXPECT_EQ(said({reading(left)}), "ring gap top three: sixteen thou. two tenths too much");
}

TEST(Composed, TheSameNumberAgainIsAskedAbout) {
  const Utterance again = composer().compose({reading({{"same_as", 40}}), place()});
  EXPECT_EQ(again.text,
            "The same number again, as if pressed twice. bore three top thrust: four three ten and two tenths. Next "
            "bore three top pin");
  EXPECT_EQ(again.sound, Sound::suspect);
}

TEST(Composed, ATableThatIsBroughtInIsSilent) {
  EXPECT_TRUE(composer().compose({reading({{"source", "import"}, {"state", "claimed"}})}).silent());
}

TEST(Composed, GaugesToSetAndToCheckAreNamedWithTheRound) {
  EXPECT_EQ(said({place({{"to_set", {"bore-gauge"}}})}), "Next bore three top pin. First set bore-gauge on its master");
  Json end = through();
  end["recheck"] = {"bore-gauge", "mic"};
  EXPECT_EQ(said({end}), "The round is through. Check bore-gauge on its master. Check mic on its master");
}

TEST(Composed, WhatARoundLeftOutIsSaidAtItsEnd) {
  Json end = through();
  end["skipped"] = 3;
  EXPECT_EQ(said({end}), "The round is through. three skipped");
}

TEST(Composed, TheEndOfARoundIsHeardAndOfEachGaugesOwn) {
  const Utterance utterance = composer().compose({reading(), through()});
  EXPECT_EQ(utterance.text, "bore three top thrust: four three ten and two tenths. The round is through");
  EXPECT_EQ(utterance.sound, Sound::round_done);
  EXPECT_EQ(said({through("bore-gauge")}), "The round of bore-gauge is through");
  EXPECT_EQ(composer().compose({reading({{"verdict", "out"}}), through()}).sound, Sound::out);
  EXPECT_TRUE(composer().compose({place({{"feature", nullptr}, {"of", 0}})}).silent());
}

TEST(Composed, TwoGaugesAreToldApart) {
  EXPECT_EQ(said({place({{"gauge", "micrometer"}})}), "micrometer: next bore three top pin");
}

TEST(Composed, AlertsSayWhatTheyAreAboutAndAgainWhereItIs) {
  EXPECT_EQ(said({alert("doubtful", "ring_gap_top 2")}), "ring gap top two is doubtful");
  EXPECT_EQ(said({alert("drift", "bore-gauge")}), "Stop. bore-gauge has drifted");
  EXPECT_EQ(said({alert("overdue", "mic")}), "mic: calibration overdue");
  EXPECT_EQ(said({alert("temperature", "piston_clearance 1")}),
            "piston clearance one: one side only is at twenty degrees");
  EXPECT_EQ(said({alert("gauge", "mic")}), "mic: the gauge is in doubt");
  EXPECT_EQ(said({alert("suspect", "bore 3")}), "bore three: a suspect reading waits");
  EXPECT_EQ(said({alert("claim", "main_journal 2")}), "main journal two: the shop claims another size");
  EXPECT_EQ(said({alert("disk", "/var")}), "Look at /var");
  EXPECT_EQ(said({alert("overdue", "mic", {{"again", 2}})}), "Still: mic: calibration overdue");
  EXPECT_TRUE(composer().compose({alert("out", "bore 3", {{"state", "ended"}})}).silent());
  EXPECT_TRUE(composer().compose({alert("out", "bore 3", {{"state", "cleared"}})}).silent());
  const Utterance flood = composer().compose({{{"event", "alerts"}, {"count", 12}, {"stop", 0}, {"open", 12}}});
  EXPECT_EQ(flood.text, "twelve more alerts");
  EXPECT_EQ(flood.rank, Rank::suspect);
  EXPECT_EQ(composer().compose({{{"event", "alerts"}, {"count", 12}, {"stop", 1}, {"open", 12}}}).rank, Rank::stop);
}

TEST(Composed, TheUnitIsThatOfTheGaugeReadLastOrAsAsked) {
  Composer voice = composer();
  EXPECT_EQ(voice.compose({alert("out", "x 1", {{"value_mm", 0.052}, {"limit_mm", 0.05}})}).text,
            "Stop. x one is out, two microns over");
  voice.compose({reading()});
  EXPECT_EQ(voice.compose({alert("out", "x 1", kTooTight)}).text, "Stop. x one is out, two tenths under");
  EXPECT_EQ(composer(Level::brief, "en", Unit::mm).compose({reading()}).text,
            "one hundred nine point four seven nine zero eight");
}

TEST(Composed, NoticesAreWantedOrNotAndSoIsTheSound) {
  Composer voice = composer();
  voice.alerts(true, true);
  const Utterance both = voice.compose({alert("out", "bore 3")});
  ASSERT_TRUE(both.notice);
  EXPECT_TRUE(both.notice->urgent);
  EXPECT_EQ(both.notice->text, "Stop. bore three is out");
  voice.alerts(false, true);
  const Utterance shown = voice.compose({reading(), alert("overdue", "mic")});
  ASSERT_TRUE(shown.notice);
  EXPECT_FALSE(shown.notice->urgent);
  EXPECT_EQ(shown.sound, Sound::stored);
  EXPECT_EQ(shown.text, "bore three top thrust: four three ten and two tenths");
  voice.alerts(false, false);
  EXPECT_TRUE(voice.compose({alert("out", "bore 3")}).silent());
}

TEST(Composed, SeveralAlertsAreOneNotice) {
  Composer voice = composer();
  voice.alerts(true, true);
  const Utterance two = voice.compose({alert("out", "bore 3"), alert("overdue", "mic")});
  EXPECT_TRUE(two.notice->urgent);
  EXPECT_EQ(two.notice->text, "Stop. bore three is out. mic: calibration overdue");
}

TEST(Composed, GaugesSettingsFaultsAndAnswers) {
  const auto gauge = [](const char* state) {
    return Json{{"event", "gauge"}, {"gauge", "bore-gauge"}, {"state", state}, {"why", "unplugged"}};
  };
  EXPECT_EQ(said({gauge("gone")}), "bore-gauge is gone");
  EXPECT_EQ(said({gauge("open")}), "bore-gauge is there");
  EXPECT_EQ(said({gauge("silent")}), "bore-gauge is silent");
  EXPECT_EQ(said({gauge("flooding")}), "bore-gauge sends without end");
  Json setting = {{"event", "setting"},  {"gauge", "bg"},   {"master_mm", 96.012},
                  {"shown_mm", 0},       {"unit", "in"},    {"good", nullptr},
                  {"drift_mm", nullptr}, {"state", "kept"}, {"reason", nullptr}};
  EXPECT_EQ(said({setting}), "bg is set, three seven eighty");
  setting["good"] = true;
  EXPECT_EQ(said({setting}), "bg is good");
  setting["good"] = false;
  setting["drift_mm"] = 0.00762;
  EXPECT_EQ(said({setting}), "Stop. bg drifted by three tenths");
  setting["reason"] = "wrong ring";
  EXPECT_EQ(said({setting}), "");
  setting["state"] = "void";
  EXPECT_EQ(said({setting}), "bg is not set");
  EXPECT_EQ(said({{{"event", "fault"}, {"gauge", "bg"}, {"why", "parity"}}}), "bg: a byte was damaged. Measure again");
  EXPECT_EQ(said({{{"event", "fault"}, {"gauge", "bg"}, {"why", "new_kind"}}}), "bg: new kind. Measure again");
  EXPECT_EQ(said({{{"event", "fault"}, {"gauge", nullptr}, {"why", "not_stored"}}}),
            "Stop. Nothing is stored: the disk refuses");
  EXPECT_EQ(said({{{"event", "answer"},
                   {"feature", "oil_ways_clear"},
                   {"index", nullptr},
                   {"label", nullptr},
                   {"answer", "yes"}}}),
            "oil ways clear: yes");
  EXPECT_EQ(said({{{"event", "answer"},
                   {"feature", "oil_ways_clear"},
                   {"index", nullptr},
                   {"label", nullptr},
                   {"answer", "n/a"}}}),
            "oil ways clear: does not apply");
}

TEST(Composed, AChangeIsSaidOnceHoweverManyItTouches) {
  const auto change = [](int seq, const char* act, const char* state) {
    return Json{{"event", "change"}, {"seq", seq}, {"act", act}, {"state", state}, {"by_seq", 50}};
  };
  EXPECT_EQ(said({change(41, "void", "void"), change(42, "void", "void"), place()}),
            "Taken back. Next bore three top pin");
  EXPECT_EQ(said({change(41, "keep", "kept")}), "Kept");
  EXPECT_TRUE(composer().compose({change(41, "doubt", "suspect")}).silent());
  EXPECT_TRUE(composer().compose({change(41, "move", "kept")}).silent()) << "nothing was kept after all";
  EXPECT_TRUE(composer().compose({change(41, "resized", "kept")}).silent());
}

TEST(Composed, WhatNobodyNeedsToHearIsSilent) {
  EXPECT_TRUE(
      composer()
          .compose({{{"event", "hello"}, {"seq", 4}}, {{"event", "live"}, {"gauge", "bg"}}, {{"event", "later"}}})
          .silent());
}

TEST(Composed, TheDaemonComesAndGoes) {
  const Utterance gone = composer().compose({{{"event", "gone"}, {"why", "hung up"}}});
  EXPECT_EQ(gone.text, "Stop. Tenth is gone: nothing is stored");
  EXPECT_EQ(gone.rank, Rank::stop);
  EXPECT_EQ(said({{{"event", "back"}}}), "Tenth is back");
}

TEST(Composed, PrintsAsOneObject) {
  EXPECT_EQ(
      utterance_json(composer(Level::brief).compose({reading()})),
      (Json{{"rank", "stored"}, {"sound", "stored"}, {"text", "four three ten and two tenths"}, {"notice", nullptr}}));
}

}  // namespace
}  // namespace tenth::cli
