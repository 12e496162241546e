#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>

#include "cli/speak/sound.hpp"
#include "tests/cli/speak/fake_program.hpp"

namespace tenth::cli {
namespace {

using Lines = std::vector<std::string>;

/// The program in a process of its own, its output in a file; it is ended with us.
class Speaker {
 public:
  Speaker(const FakePrograms& programs, const std::string& socket, Lines words, const std::string& language = "C")
      : programs_(programs) {
    const std::string out = programs.folder() + "/out", err = programs.folder() + "/err";
    words.insert(words.begin(), {"tenth", "--socket", socket, "speak"});
    id_ = fork();
    if (id_ != 0) return;
    setenv("PATH", programs.folder().c_str(), 1);
    setenv("LC_ALL", language.c_str(), 1);
    if (freopen(out.c_str(), "w", stdout) == nullptr || freopen(err.c_str(), "w", stderr) == nullptr) _exit(98);
    std::vector<char*> list;
    for (std::string& word : words) list.push_back(word.data());
    list.push_back(nullptr);
    execv(TENTH_BINARY_DIR "/bin/tenth", list.data());
    _exit(99);
  }
  ~Speaker() {
    if (id_ != 0) end(SIGKILL);
  }
  Speaker(const Speaker&) = delete;
  Speaker& operator=(const Speaker&) = delete;

  /// Its exit status, once it has ended by this signal, or by itself (0).
  int end(int signal) {
    if (signal != 0) kill(id_, signal);
    int status = 0;
    waitpid(std::exchange(id_, 0), &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  }
  Lines out() const { return lines_of(programs_.file("out")); }
  std::string err() const { return programs_.file("err"); }

 private:
  const FakePrograms& programs_;
  pid_t id_ = 0;
};

Json reading() {
  return {{"event", "reading"},      {"seq", 41},      {"feature", "bore"}, {"label", "3"},         {"level", "top"},
          {"axis", "thrust"},        {"unit", "in"},   {"gauge", "bg"},     {"size_mm", 109.47908}, {"state", "kept"},
          {"doubts", Json::array()}, {"verdict", "in"}};
}

Json alert() {
  return {{"event", "alert"},    {"id", 7},        {"severity", "stop"}, {"what", "out"},
          {"subject", "bore 3"}, {"state", "open"}};
}

class Speak : public testing::Test {
 protected:
  Speak() {
    daemon_.answers("status", {{"in_session", {{"sound", true}, {"desktop", false}}}});
    daemon_.answers("watch", Json::object());
    daemon_.stays();
  }
  Lines texts(const Lines& lines) const {
    Lines all;
    for (const std::string& line : lines) all.push_back(Json::parse(line)["text"]);
    return all;
  }
  FakeDaemon daemon_;
  FakePrograms programs_;
};

TEST_F(Speak, WithJsonPrintsWhatWouldBeHeard) {
  daemon_.tells(reading());
  Speaker speaker(programs_, daemon_.path(), {"--json"});
  ASSERT_TRUE(until([&] { return speaker.out().size() == 1; })) << speaker.err();
  EXPECT_EQ(Json::parse(speaker.out()[0]), (Json{{"rank", "stored"},
                                                 {"sound", "stored"},
                                                 {"text", "bore three top thrust: four three ten and two tenths"},
                                                 {"notice", nullptr}}));
  EXPECT_EQ(speaker.end(SIGTERM), 0);
}

TEST_F(Speak, PlaysSpeaksAndShows) {
  daemon_.tells(reading());
  daemon_.tells(alert());
  programs_.noting("espeak-ng");
  programs_.noting("notify-send");
  programs_.make("aplay", "/bin/cat \"$2\" > \"$folder/tone\"");
  Speaker speaker(programs_, daemon_.path(), {"--level", "short", "--notices"});
  ASSERT_TRUE(until([&] {
    return programs_.said("espeak-ng").size() == 1 && programs_.said("notify-send").size() == 1;
  })) << speaker.err();
  EXPECT_EQ(programs_.said("espeak-ng")[0], "-v en -- Stop. bore three is out. four three ten and two tenths");
  EXPECT_EQ(programs_.said("notify-send")[0], "--app-name=Tenth --urgency=critical -- Tenth Stop. bore three is out");
  EXPECT_EQ(programs_.file("tone"), wav_of(Sound::out));
  EXPECT_EQ(speaker.end(SIGINT), 0);
}

TEST_F(Speak, TheConfigurationMayWantNoSoundOfAlertsAndNoticesOfThem) {
  daemon_.answers("status", {{"in_session", {{"sound", false}, {"desktop", true}}}});
  daemon_.tells(alert());
  Speaker speaker(programs_, daemon_.path(), {"--json"});
  ASSERT_TRUE(until([&] { return speaker.out().size() == 1; })) << speaker.err();
  EXPECT_EQ(Json::parse(speaker.out()[0]), (Json{{"rank", "word"},
                                                 {"sound", nullptr},
                                                 {"text", nullptr},
                                                 {"notice", {{"urgent", true}, {"text", "Stop. bore three is out"}}}}));
}

TEST_F(Speak, SpeaksTheLanguageOfTheSession) {
  daemon_.tells(reading());
  const std::string voice = programs_.noting("voice");
  Speaker speaker(programs_, daemon_.path(), {"--voice", voice, "--unit", "mm"}, "de_DE.UTF-8");
  ASSERT_TRUE(until([&] { return programs_.said("voice").size() == 1; })) << speaker.err();
  EXPECT_EQ(programs_.said("voice")[0],
            "Zylinder drei oben Druckseite: einhundertneun Komma vier sieben neun null acht");
}

TEST_F(Speak, SaysThatTheDaemonIsGoneAndBack) {
  auto first = std::make_unique<FakeDaemon>();
  const std::string path = first->path();
  first->answers("status", Json::object());
  first->answers("watch", Json::object());
  first->stays();
  first->tells(reading());
  Speaker speaker(programs_, path, {"--json"});
  ASSERT_TRUE(until([&] { return speaker.out().size() == 1; })) << speaker.err();
  first.reset();
  ASSERT_TRUE(until([&] { return speaker.out().size() == 2; })) << speaker.err();
  EXPECT_EQ(texts(speaker.out())[1], "Stop. Tenth is gone: nothing is stored");
  EXPECT_NE(speaker.err().find("hung up; waiting for it"), std::string::npos) << speaker.err();
  FakeDaemon second(path);
  second.answers("status", Json::object());
  second.answers("watch", Json::object());
  second.stays();
  second.tells(reading());
  ASSERT_TRUE(until([&] { return speaker.out().size() >= 3; })) << speaker.err();
  EXPECT_EQ(texts(speaker.out())[2].substr(0, 13), "Tenth is back") << speaker.out()[2];
}

TEST_F(Speak, ManyValuesOnTheWayHoldNothingUp) {
  daemon_.tells(reading());
  for (int i = 0; i < 400; ++i) daemon_.tells({{"event", "live"}, {"gauge", "g"}, {"value_mm", 0.001}});
  daemon_.tells(alert());
  Speaker speaker(programs_, daemon_.path(), {"--json"});
  ASSERT_TRUE(until([&] { return !speaker.out().empty(); })) << speaker.err();
  EXPECT_EQ(texts(speaker.out())[0].substr(0, 4), "Stop") << "both are of one moment";
}

TEST_F(Speak, WhatWasCutOffIsFollowedAgainWithoutAlarm) {
  daemon_.tells(reading());
  daemon_.tells({{"event", "lost"}, {"seq", 7}});
  Speaker speaker(programs_, daemon_.path(), {"--json"});
  ASSERT_TRUE(until([&] { return speaker.out().size() >= 2; })) << speaker.err();  // the fake one tells it anew
  for (const std::string& text : texts(speaker.out())) EXPECT_EQ(text.substr(0, 4), "bore") << text;
  EXPECT_EQ(speaker.err(), "");
}

TEST_F(Speak, OneThatHangsUpForAWhileIsNoticedWithin2s) {
  programs_.noting("espeak-ng");
  programs_.make("aplay", "");
  auto daemon = std::make_unique<FakeDaemon>();
  daemon->answers("status", Json::object());
  daemon->answers("watch", Json::object());
  daemon->stays();
  Speaker speaker(programs_, daemon->path(), {});
  ASSERT_TRUE(until([&] { return daemon->calls().size() == 3; }));
  const auto gone = std::chrono::steady_clock::now();
  daemon.reset();
  ASSERT_TRUE(until([&] { return programs_.said("espeak-ng").size() == 1; }));
  EXPECT_LT(std::chrono::steady_clock::now() - gone, std::chrono::seconds(10));
}

TEST_F(Speak, WithoutAProgramToSpeakWithItSaysWhatToDo) {
  Speaker speaker(programs_, daemon_.path(), {});
  EXPECT_EQ(speaker.end(0), 4);
  EXPECT_EQ(speaker.err(),
            "tenth: no program is there to speak with: neither spd-say nor espeak-ng; install speech-dispatcher or "
            "espeak-ng, name "
            "one with --voice, or say --level tones\n");
}

TEST_F(Speak, WithoutAPlayerItSpeaksAllTheSame) {
  daemon_.tells(reading());
  programs_.noting("spd-say");
  {
    Speaker speaker(programs_, daemon_.path(), {});
    ASSERT_TRUE(until([&] { return programs_.said("spd-say").size() == 1; })) << speaker.err();
    EXPECT_NE(speaker.err().find("no program is there to play tones with"), std::string::npos);
  }
  Speaker tones(programs_, daemon_.path(), {"--level", "tones"});
  EXPECT_EQ(tones.end(0), 4);
}

TEST_F(Speak, AFileOfWordsIsUsedAndItsErrorsAreNamed) {
  Speaker shipped(programs_, daemon_.path(), {"--template", "en"});
  ASSERT_EQ(shipped.end(0), 0);
  std::string words = programs_.file("out");
  const std::string hello = "kept = \"{place}: {size}\"", file = programs_.folder() + "/fr.toml";
  ASSERT_NE(words.find(hello), std::string::npos);
  words.replace(words.find(hello), hello.size(), "kept = \"{size}, a {place}\"");
  std::ofstream(file) << words;
  daemon_.tells(reading());
  {
    Speaker speaker(programs_, daemon_.path(), {"--json", "--words", file});
    ASSERT_TRUE(until([&] { return speaker.out().size() == 1; })) << speaker.err();
    EXPECT_EQ(texts(speaker.out())[0], "four three ten and two tenths, a bore three top thrust");
  }
  std::ofstream(file) << "language = \"fr\"\nwords = 1\n";
  Speaker broken(programs_, daemon_.path(), {"--json", "--words", file});
  EXPECT_EQ(broken.end(0), 4);
  EXPECT_NE(broken.err().find("fr.toml:2:1: a file of speech has no key 'words'"), std::string::npos) << broken.err();
}

TEST_F(Speak, WordsThatAreWrongAndADaemonThatIsNotThere) {
  EXPECT_EQ(run_program({"speak", "--level", "loud"}).exit, 2);
  EXPECT_EQ(run_program({"speak", "--language", "xx"}).exit, 2);
  EXPECT_EQ(run_program({"--socket", "/nowhere/socket", "--json", "speak"}).exit, 3);
}

}  // namespace
}  // namespace tenth::cli
