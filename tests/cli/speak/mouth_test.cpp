#include "cli/speak/mouth.hpp"

#include <gtest/gtest.h>

#include <csignal>

#include "tests/cli/speak/fake_program.hpp"

namespace tenth::cli {
namespace {

using std::chrono::milliseconds;
using Lines = std::vector<std::string>;

Utterance utterance(const std::string& text, Rank rank = Rank::stored, std::optional<Sound> sound = std::nullopt) {
  return {rank, sound, text, std::nullopt};
}

class MouthTest : public testing::Test {
 protected:
  /// A voice that speaks until the file "hush" is there, and notes what it was told to say, and what it said to the
  /// end.
  Helpers::Words slow_voice() {
    return {
        programs_.make("voice",
                       "echo \"$1\" >> \"$folder/voice.said\"; while ! [ -e \"$folder/hush\" ]; do sleep 0.01; done; "
                       "echo \"$1\" >> \"$folder/ended.said\"")};
  }
  bool spoken(const Lines& lines) {
    return until([&] {
      mouth_->goes_on();
      return programs_.said("voice") == lines;
    });
  }
  void hush() { std::ofstream(programs_.folder() + "/hush") << "now"; }
  bool quiet() {
    return until([&] { return !mouth_->goes_on(); });
  }

  FakePrograms programs_;
  std::optional<Mouth> mouth_;
};

TEST_F(MouthTest, SpeaksTheTextAsOneWordAfterTheVoicesOwn) {
  mouth_.emplace(Helpers{
      {}, {{{programs_.make("voice", "printf '%s|' \"$@\" >> \"$folder/voice.said\""), "-v", "en", "--"}}}, {}});
  mouth_->say(utterance("-x; $(rm) 'bore' three"));
  ASSERT_TRUE(quiet());
  EXPECT_EQ(programs_.file("voice.said"), "-v|en|--|-x; $(rm) 'bore' three|");
}

TEST_F(MouthTest, ANewMessageCutsTheOldOneOff) {
  mouth_.emplace(Helpers{{}, {{slow_voice()}}, {}});
  mouth_->say(utterance("one"));
  ASSERT_TRUE(spoken({"one"}));
  mouth_->say(utterance("two"));
  ASSERT_TRUE(spoken({"one", "two"}));
  hush();
  ASSERT_TRUE(quiet());
  EXPECT_EQ(programs_.said("ended"), Lines{"two"});
}

TEST_F(MouthTest, AStopIsSpokenToItsEndAndTheNewestWaitsForIt) {
  mouth_.emplace(Helpers{{}, {{slow_voice()}}, {}});
  mouth_->say(utterance("stop", Rank::stop));
  ASSERT_TRUE(spoken({"stop"}));
  for (const char* text : {"one", "two", "three"}) mouth_->say(utterance(text));
  std::this_thread::sleep_for(milliseconds(50));
  mouth_->goes_on();
  EXPECT_EQ(programs_.said("voice"), Lines{"stop"});
  hush();
  ASSERT_TRUE(quiet());
  EXPECT_EQ(programs_.said("ended"), (Lines{"stop", "three"}));
}

TEST_F(MouthTest, AStopCutsOffWhatIsLessAndWaitsForNothing) {
  mouth_.emplace(Helpers{{}, {{slow_voice()}}, {}});
  mouth_->say(utterance("one"));
  ASSERT_TRUE(spoken({"one"}));
  mouth_->say(utterance("stop", Rank::stop));
  EXPECT_TRUE(spoken({"one", "stop"}));
}

TEST_F(MouthTest, WhatWaitsIsNotReplacedByLess) {
  mouth_.emplace(Helpers{{}, {{slow_voice()}}, {}});
  mouth_->say(utterance("stop", Rank::stop));
  ASSERT_TRUE(spoken({"stop"}));
  mouth_->say(utterance("suspect", Rank::suspect));
  mouth_->say(utterance("stored", Rank::stored));
  hush();
  ASSERT_TRUE(quiet());
  EXPECT_EQ(programs_.said("voice"), (Lines{"stop", "suspect"}));
}

TEST_F(MouthTest, AVoiceThatHangsIsKilledWithItsChildren) {
  mouth_.emplace(
      Helpers{
          {},
          {{{programs_.make("voice", "echo $$ > \"$folder/pids\"; sleep 300 & echo $! >> \"$folder/pids\"; wait")}}},
          {}},
      Mouth::Limits{milliseconds(300), milliseconds(300), milliseconds(300)});
  mouth_->say(utterance("one"));
  ASSERT_TRUE(quiet());
  const Lines pids = lines_of(programs_.file("pids"));
  ASSERT_EQ(pids.size(), 2U);
  for (const std::string& pid : pids)
    EXPECT_TRUE(until([&] { return std::ifstream("/proc/" + pid + "/cmdline").peek() == EOF; }))
        << pid << " still runs";
}

TEST_F(MouthTest, AVoiceThatFailsHangsOrIsNotThereIsGivenUpForTheNext) {
  const std::string second = programs_.noting("second");
  for (const std::string& first :
       {programs_.make("fails", "exit 1"), programs_.make("hangs", "sleep 300"), std::string("/nowhere/voice")}) {
    std::filesystem::remove(programs_.folder() + "/second.said");
    Lines given_up;
    mouth_.emplace(Helpers{{}, {{{first}, true}, {{second}}}, {}},
                   Mouth::Limits{milliseconds(300), milliseconds(300), milliseconds(300)},
                   [&](const std::string& program, const std::string& next) { given_up = {program, next}; });
    mouth_->say(utterance("one"));
    ASSERT_TRUE(quiet());
    mouth_->say(utterance("two"));
    ASSERT_TRUE(quiet());
    EXPECT_EQ(programs_.said("second"), (Lines{"one", "two"})) << first;
    EXPECT_EQ(given_up, (Lines{first, second}));
  }
}

TEST_F(MouthTest, TheOnlyVoiceIsNotGivenUp) {
  mouth_.emplace(Helpers{{}, {{{programs_.make("voice", "echo \"$1\" >> \"$folder/voice.said\"; exit 1")}}}, {}});
  for (const char* text : {"one", "two"}) {
    mouth_->say(utterance(text));
    ASSERT_TRUE(quiet());
  }
  EXPECT_EQ(programs_.said("voice"), (Lines{"one", "two"}));
}

TEST_F(MouthTest, AVoiceThatSpeaksOnIsToldToBeQuiet) {
  const std::string voice =
      programs_.make("voice", "echo \"$*\" >> \"$folder/voice.said\"; [ \"$1\" = --cancel ] || sleep 300");
  mouth_.emplace(Helpers{{}, {{{voice, "--wait", "--"}, true}}, {}});
  mouth_->say(utterance("one"));
  ASSERT_TRUE(spoken({"--wait -- one"}));
  mouth_->say(utterance("two"));
  ASSERT_TRUE(spoken({"--wait -- one", "--cancel", "--wait -- two"}));
  mouth_.reset();
  EXPECT_EQ(programs_.said("voice").back(), "--cancel");
}

TEST_F(MouthTest, TheToneComesFirstAsAWavFile) {
  mouth_.emplace(
      Helpers{{programs_.make("player", "cat \"$1\" > \"$folder/tone\"; sleep 0.2; echo tone >> \"$folder/order\""),
               "/dev/stdin"},
              {{{programs_.make("voice", "echo voice >> \"$folder/order\"")}}},
              {}});
  for (const Sound sound : {Sound::stored, Sound::out, Sound::out}) {
    mouth_->say(utterance("one", Rank::stored, sound));
    ASSERT_TRUE(quiet());
    EXPECT_EQ(programs_.file("tone"), wav_of(sound)) << name(sound);
  }
  EXPECT_EQ(programs_.file("order"), "tone\nvoice\ntone\nvoice\ntone\nvoice\n");
}

TEST_F(MouthTest, ATonePlaysAtOnceThoughAStopIsBeingSpoken) {
  Helpers helpers{{programs_.noting("player"), "/dev/stdin"}, {{slow_voice()}}, {}};
  mouth_.emplace(helpers);
  mouth_->say(utterance("stop", Rank::stop, Sound::out));
  ASSERT_TRUE(spoken({"stop"}));
  mouth_->say(utterance("one", Rank::stored, Sound::stored));
  EXPECT_TRUE(until([&] { return programs_.said("player").size() == 2; }));
  EXPECT_EQ(programs_.said("voice"), Lines{"stop"});
}

TEST_F(MouthTest, ALesserToneDoesNotCutAGreaterOne) {
  mouth_.emplace(
      Helpers{{programs_.make("player", "echo . >> \"$folder/player.said\"; sleep 0.3"), "/dev/stdin"}, {}, {}});
  mouth_->say(utterance("", Rank::stop, Sound::out));
  mouth_->say(utterance("", Rank::stored, Sound::stored));
  ASSERT_TRUE(quiet());
  EXPECT_EQ(programs_.said("player").size(), 1U);
}

TEST_F(MouthTest, NoticesAreShownAsTextAndUrgentOnesSo) {
  mouth_.emplace(Helpers{{}, {}, {programs_.noting("notify-send"), "--app-name=Tenth"}});
  Utterance shown;
  shown.notice = Notice{true, "bore <b>3</b> & more"};
  mouth_->say(shown);
  ASSERT_TRUE(quiet());
  shown.notice = Notice{false, "-u"};
  mouth_->say(shown);
  ASSERT_TRUE(quiet());
  EXPECT_EQ(programs_.said("notify-send"),
            (Lines{"--app-name=Tenth --urgency=critical -- Tenth bore &lt;b&gt;3&lt;/b&gt; &amp; more",
                   "--app-name=Tenth --urgency=normal -- Tenth -u"}));
}

TEST_F(MouthTest, ANoticeIsNotCutOffByTheNext) {
  const std::string slow = programs_.make("notify-send", "sleep 0.2; echo \"$*\" >> \"$folder/notify-send.said\"");
  mouth_.emplace(Helpers{{}, {}, {slow}});
  Utterance shown;
  for (const char* text : {"one", "two", "three"}) {
    shown.notice = Notice{true, text};
    mouth_->say(shown);
  }
  ASSERT_TRUE(quiet());
  const Lines said = programs_.said("notify-send");
  ASSERT_EQ(said.size(), 3U);  // the second and third in one, a line each
  EXPECT_TRUE(said[0].ends_with("one"));
  EXPECT_TRUE(said[1].ends_with("two"));
  EXPECT_EQ(said[2], "three");
}

TEST_F(MouthTest, AProgramThatIsNotThereIsNoHarm) {
  mouth_.emplace(Helpers{{"/nowhere/player", "/dev/stdin"}, {{{"/nowhere/voice"}}}, {"/nowhere/notify"}});
  Utterance all = utterance("one", Rank::stop, Sound::out);
  all.notice = Notice{true, "one"};
  mouth_->say(all);
  EXPECT_TRUE(quiet());
}

World world_with(const std::string& path, std::ostream& out, std::istream& in) {
  return {in,
          out,
          out,
          false,
          false,
          false,
          [path](const std::string& name) { return name == "PATH" ? path : std::string(); }};
}

TEST(HelpersTest, TheFirstOfTheUsualProgramsThatIsInstalledIsUsed) {
  std::stringstream none;
  FakePrograms first, second;
  second.noting("aplay");
  second.noting("espeak-ng");
  World world = world_with(first.folder() + "::" + second.folder(), none, none);
  EXPECT_EQ(find_helpers(world, "", "", "de").player, (Lines{"aplay", "-q", "/dev/stdin"}));
  ASSERT_EQ(find_helpers(world, "", "", "de").voices.size(), 1U);
  EXPECT_EQ(find_helpers(world, "", "", "de").voices[0].words, (Lines{"espeak-ng", "-v", "de", "--"}));
  EXPECT_FALSE(find_helpers(world, "", "", "de").voices[0].cancels);
  EXPECT_TRUE(find_helpers(world, "", "", "de").notifier.empty());
  for (const char* program : {"paplay", "spd-say", "notify-send"}) first.noting(program);
  const Helpers helpers = find_helpers(world, "", "", "de");
  EXPECT_EQ(helpers.player, (Lines{"paplay", "/dev/stdin"}));
  ASSERT_EQ(helpers.voices.size(), 2U) << "the second where the first fails";
  EXPECT_EQ(helpers.voices[0].words, (Lines{"spd-say", "--wait", "--language", "de", "--"}));
  EXPECT_TRUE(helpers.voices[0].cancels);
  EXPECT_EQ(helpers.voices[1].words, (Lines{"espeak-ng", "-v", "de", "--"}));
  EXPECT_EQ(helpers.notifier, (Lines{"notify-send", "--app-name=Tenth"}));
  second.noting("pw-play");
  EXPECT_EQ(find_helpers(world, "", "", "de").player.front(), "pw-play");
}

TEST(HelpersTest, ThoseThatTheCallerNamesAreTaken) {
  std::stringstream none;
  FakePrograms programs;
  programs.noting("spd-say");
  const World world = world_with(programs.folder(), none, none);
  const Helpers helpers = find_helpers(world, "/my/player", "/my/voice", "en");
  EXPECT_EQ(helpers.player, (Lines{"/my/player", "/dev/stdin"}));
  ASSERT_EQ(helpers.voices.size(), 1U);
  EXPECT_EQ(helpers.voices[0].words, Lines{"/my/voice"});
  EXPECT_FALSE(helpers.voices[0].cancels);
}

}  // namespace
}  // namespace tenth::cli
