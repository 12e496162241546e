// Profiles are data: the shipped ones, one's own, and the wrong ones with their line.
#include <algorithm>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/profile_text.hpp"

namespace acceptance {
namespace {

class Profile : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    done({"at", "bore"});
  }
  Words add(const std::string& profile) {
    return {"gauge", "add", "g", "--port", home_ / "port-g", "--profile", profile, "--unit", "mm"};
  }
  // The profile is refused and its file and line are named.
  void wrong(const std::string& text, int line) {
    const std::filesystem::path file = write("wrong.toml", text);
    const std::string said = refused(add(file), 4);
    EXPECT_NE(said.find("wrong.toml:" + std::to_string(line) + ":"), std::string::npos) << said << "for\n" << text;
  }
  static int line_of(const std::string& text, const std::string& words) {
    return 1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<long>(text.find(words)), '\n'));
  }
  void wrong_at(const std::string& text, const std::string& words) { wrong(text, line_of(text, words)); }
};

TEST_F(Profile, TheShippedAreListed) {
  const std::string list = done({"gauge", "profiles"});
  for (const char* name : {"line", "bcd13", "bin24", "query", "keys", "modbus", "pedal"}) {
    EXPECT_NE(list.find(name), std::string::npos) << name;
  }
  refused({"gauge", "profiles", "nosuch"}, 4);
}

TEST_F(Profile, OnePrintedIsAStartForOnesOwn) {
  for (const char* name : {"line", "bcd13", "bin24", "query", "modbus"}) {
    const std::filesystem::path own = write("own.toml", done({"gauge", "profiles", name}));
    done({"gauge", "add", name, "--port", home_ / (std::string("port-") + name), "--profile", own, "--unit", "mm"});
  }
}

TEST_F(Profile, OnesOwnLiesInTheProfileFolderAndNeedsNoRestart) {
  std::filesystem::create_directories(home_ / "tenth/profiles");
  write("tenth/profiles/mine.toml", line_profile({.value = "scale = \"0.01\""}));
  EXPECT_NE(done({"gauge", "profiles"}).find("mine"), std::string::npos);
  EXPECT_NE(done({"gauge", "profiles", "mine"}).find("tenth-profile-1"), std::string::npos);
  gauge("g", {}, "mine");
  EXPECT_EQ(press("g", line("7001"))["value_mm"], 70.01);
}

TEST_F(Profile, OneThatCannotBeReadHidesNoOther) {
  std::filesystem::create_directories(home_ / "tenth/profiles/broken.toml");  // a folder of that name
  write("tenth/profiles/mine.toml", line_profile({.value = "scale = \"0.01\""}));
  const Ran listed = tenth({"gauge", "profiles"});
  EXPECT_EQ(listed.status, 0) << listed.err;
  EXPECT_NE(listed.out.find("mine"), std::string::npos);
  EXPECT_NE(listed.err.find("broken.toml"), std::string::npos);
}

TEST_F(Profile, OnesOwnComesBeforeTheShippedOfThatName) {
  std::filesystem::create_directories(home_ / "tenth/profiles");
  write("tenth/profiles/line.toml", line_profile({.value = "negate = true"}));
  gauge("g");
  EXPECT_EQ(press("g", line("-70.01"))["value_mm"], 70.01);
}

TEST_F(Profile, IsStoredWholeSoThatItsFileMayGo) {
  const std::filesystem::path file = write("p.toml", line_profile({.value = "scale = \"0.01\""}));
  gauge("g", {}, file);
  std::filesystem::remove(file);
  daemon_.stop();
  daemon_.start();
  restart_watch();
  wait_open("g");
  EXPECT_EQ(press("g", line("7001"))["value_mm"], 70.01);
}

TEST_F(Profile, AFileThatIsNotThereIsRefused) {
  refused(add("./nosuch.toml"), 4);
  refused(add("nosuch.toml"), 4);
  refused(add("nosuch"), 4);
}

TEST_F(Profile, UnknownKeysAndGroupsAreErrors) {
  const std::string good = line_profile();
  wrong_at(good + "bogus = 1\n", "bogus");
  wrong_at(good + "[bogus]\na = 1\n", "[bogus]");
  for (const char* group : {"line", "status", "trigger", "limits"}) {
    wrong_at(good + "[" + group + "]\nbogus = 1\n", "bogus");
  }
  wrong_at(line_profile({.frame = "bogus = 1"}), "bogus");
  wrong_at("format = \"tenth-profile-1\"\nspeaks = \"modbus\"\n[modbus]\nbogus = 1\n", "bogus");
}

TEST_F(Profile, OnlyAPolledGaugeIsAsked) {
  const std::string good = line_profile();
  wrong_at(good + "[trigger]\nby = \"button\"\nask = \"R\"\n", "ask =");
  wrong_at(good + "[trigger]\nask = \"R\"\n", "ask =");
  wrong_at(good + "[trigger]\nby = \"continuous\"\nask = \"R\"\n", "ask =");
}

TEST_F(Profile, WrongPatterns) {
  for (const char* pattern : {"[0-9.]+", "(?P<number>[0-9.]+", "(?P<number>[0-9.]+)(?=mm)", "(?P<colour>[0-9.]+)"}) {
    wrong_at(line_profile({.pattern = pattern}), "pattern");
  }
}

TEST_F(Profile, WrongValues) {
  for (const char* value : {"scale = \"0\"", "scale = \"1/0\"", "scale = \"wide\"", "units = { mm = \"cubit\" }"}) {
    wrong_at(line_profile({.value = value}), value);
  }
  for (const char* frame : {"end = []", "end = [\"\"]", "most = 0", "most = 257", "silence_ms = -1", "start = 1"}) {
    wrong_at(line_profile({.frame = frame}), frame);
  }
  wrong_at(line_profile({.unit = "unit = \"furlong\""}), "unit = \"furlong\"");
}

TEST_F(Profile, WrongGroups) {
  const std::string good = line_profile();
  for (const char* key :
       {"bits = 9", "stop = 3", "baud = 0", "baud = \"9600\"", "parity = \"maybe\"", "flow = \"x\""}) {
    wrong_at(good + "[line]\n" + key + "\n", key);
  }
  for (const char* key : {"by = \"magic\"", "by = \"poll\"\nevery_ms = 0", "by = \"poll\"\nwithin_ms = -1"}) {
    const std::string text = good + "[trigger]\n" + key + "\n";
    wrong(text, static_cast<int>(std::count(text.begin(), text.end(), '\n')));
  }
  wrong_at(good + "[limits]\nrange = [\"1 mm\", \"-1 mm\"]\n", "range");
  wrong_at(good + "[limits]\nrange = [\"1 mm\"]\n", "range");
  for (const char* key :
       {"table = \"coil\"", "type = \"int8\"", "order = \"ACBD\"", "unit_id = 300", "address = 65536"}) {
    wrong(std::string("format = \"tenth-profile-1\"\nspeaks = \"modbus\"\n[modbus]\n") + key + "\n", 4);
  }
}

TEST_F(Profile, WrongHeads) {
  const std::string good = line_profile();
  wrong(good.substr(good.find('\n') + 1), 1);
  wrong("format = \"tenth-profile-2\"" + good.substr(good.find('\n')), 1);
  wrong("format = \"tenth-profile-1\"\nspeaks = \"morse\"\n", 2);
  wrong_at(good + "[trigger\n", "[trigger");
}

// What the sample gives as the default needs not be written.
TEST_F(Profile, OnlyThePatternMustBeThere) {
  gauge("g", {"--unit", "mm"},
        write("p.toml",
              "format = \"tenth-profile-1\"\nspeaks = \"line\"\n[value]\npattern = '" + sample_pattern + "'\n"));
  EXPECT_EQ(press("g", "70.010K\r\n")["value_mm"], 70.01);
  EXPECT_EQ(press("g", "2.7563in\n")["unit"], "in");
}

TEST_F(Profile, WithoutAUnitOfItsOwnTheGaugeNeedsOne) {
  const std::filesystem::path file = write("p.toml", line_profile({.unit = ""}));
  Words words = add(file);
  words.resize(words.size() - 2);
  refused(words, 2);
  gauge("h", {"--unit", "in"}, file);
  EXPECT_EQ(press("h", line("2.7563"))["value_mm"], 70.01002);
}

}  // namespace
}  // namespace acceptance
