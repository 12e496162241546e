#include "simulators/run.hpp"

#include <gtest/gtest.h>
#include <sys/wait.h>

#include <algorithm>
#include <csignal>
#include <fstream>
#include <iostream>
#include <sstream>
#include <vector>

#include "bench.hpp"

namespace tenth::simulators {
namespace {

namespace fs = std::filesystem;

/// The whole program in a process of its own, with pipes for its input, output and errors.
class Program {
 public:
  explicit Program(const std::vector<std::string>& words) {
    std::array<int, 2> in, out, err;
    if (::pipe(in.data()) != 0 || ::pipe(out.data()) != 0 || ::pipe(err.data()) != 0) std::abort();
    process_ = ::fork();
    if (process_ == 0) {
      ::dup2(in[0], 0), ::dup2(out[1], 1), ::dup2(err[1], 2);
      for (const int end : {in[0], in[1], out[0], out[1], err[0], err[1]}) ::close(end);
      const std::vector<std::string_view> views(words.begin(), words.end());
      const int status = run(views, std::cout, std::cerr);
      std::cout.flush();
      ::_exit(status);
    }
    ::close(in[0]), ::close(out[1]), ::close(err[1]);
    in_ = in[1], out_ = out[0], err_ = err[0];
  }
  ~Program() {
    if (process_ > 0) ::kill(process_, SIGKILL), end();
    for (const int end : {in_, out_, err_}) ::close(end);
  }
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;

  /// The next line of its output.
  std::string line() {
    std::string text;
    for (auto byte = read_bytes(out_, 1); !byte.empty() && byte != "\n"; byte = read_bytes(out_, 1)) text += byte;
    return text;
  }
  std::string tell(const std::string& words) {
    const auto sent = words + "\n";
    EXPECT_EQ(::write(in_, sent.data(), sent.size()), static_cast<ssize_t>(sent.size()));
    return line();
  }
  void end_input() { ::close(std::exchange(in_, -1)); }
  pid_t process() const { return process_; }
  void signal(int number) const { ::kill(process_, number); }
  std::string errors() const { return read_bytes(err_, 1 << 20); }

  /// It has not ended within that time.
  bool runs_for(std::chrono::milliseconds time) const {
    ::usleep(static_cast<useconds_t>(std::chrono::microseconds(time).count()));
    return ::waitpid(process_, nullptr, WNOHANG) == 0;
  }

  /// Waits for its end and gives its exit status; -1 where it did not exit by itself.
  int end() {
    int status = 0;
    ::waitpid(std::exchange(process_, -1), &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }

 private:
  pid_t process_ = -1;
  int in_ = -1, out_ = -1, err_ = -1;
};

class Running : public testing::Test {
 protected:
  std::string scenario(const std::string& head) {
    std::ofstream(folder_ / "s.toml") << head << "\n[[gauge]]\nname = 'mic'\npath = 'mic'\nspeaks = 'line'\n";
    return folder_ / "s.toml";
  }

  Folder folder_;
};

TEST_F(Running, PlaysAtItsTimesAndEnds) {
  const auto begun = std::chrono::steady_clock::now();
  Program program({scenario("title = 't'\nplay = ['wait told', 'press mic 1', 'wait 150', 'press mic 2', 'wait told']"),
                   "--control", "-"});
  EXPECT_EQ(program.line(), "ready");
  const Reader reader(folder_ / "mic");
  EXPECT_EQ(program.tell("go"), "ok");
  EXPECT_EQ(reader.read(12), "1.000\r2.000\r");
  EXPECT_GE(std::chrono::steady_clock::now() - begun, std::chrono::milliseconds(150));
  EXPECT_EQ(program.tell("quit"), "ok");
  EXPECT_EQ(program.end(), 0);
  EXPECT_FALSE(fs::is_symlink(folder_ / "mic"));
}

TEST_F(Running, WithoutAControlItEndsWhenPlayedOut) {
  const auto begun = std::chrono::steady_clock::now();
  Program program({scenario("title = 't'\nplay = ['press mic 1', 'wait 200']")});
  EXPECT_EQ(program.end(), 0);
  EXPECT_GE(std::chrono::steady_clock::now() - begun, std::chrono::milliseconds(200))
      << "the last act too is waited for";
  EXPECT_EQ(program.errors(), "mic 1.000\\x0D\n");
}

TEST_F(Running, DoesWhatItIsTold) {
  Program program({scenario("title = 't'"), "--control", "-"});
  EXPECT_EQ(program.line(), "ready");
  const Reader reader(folder_ / "mic");
  EXPECT_EQ(program.tell("press mic 83.012"), R"(ok 83.012\x0D)");
  EXPECT_EQ(reader.read(7), "83.012\r");
  EXPECT_EQ(program.tell("press mic"), "error: mic has no more values: press it with one");
  EXPECT_EQ(program.tell("shout").substr(0, 49), "error: 'shout' is not understood: write press, no");
  EXPECT_EQ(program.tell("wait 5"), "error: wait stands in a scenario's play only");
  EXPECT_EQ(program.tell("go"), "error: nothing waits for go");
  EXPECT_EQ(program.tell("hangup mic"), "ok");
  EXPECT_TRUE(hung_up(reader.descriptor()));
  EXPECT_EQ(program.tell("return mic").substr(0, 12), "ok /dev/pts/");
  EXPECT_EQ(program.tell("quit"), "ok");
  EXPECT_EQ(program.end(), 0);
}

TEST_F(Running, ALineWithoutEndIsAnsweredAndForgotten) {
  Program program({scenario("title = 't'"), "--control", "-"});
  EXPECT_EQ(program.line(), "ready");
  EXPECT_EQ(program.tell(std::string(5000, 'x')).substr(0, 9), "error: 'x");
}

TEST_F(Running, TheEndOfItsInputEndsItWhenPlayedOut) {
  Program program({scenario("title = 't'"), "--control", "-"});
  EXPECT_EQ(program.line(), "ready");
  program.end_input();
  EXPECT_EQ(program.end(), 0);
}

TEST_F(Running, TakesActsFromAFifoThatItMakes) {
  const std::string fifo = folder_ / "thumb";
  Program program({scenario("title = 't'"), "--control", fifo});
  EXPECT_EQ(program.line(), "ready");
  std::ofstream(fifo) << "press mic 1\n";
  EXPECT_EQ(program.line(), R"(ok 1.000\x0D)");
  std::ofstream(fifo) << "press mic 2\nquit\n";
  EXPECT_EQ(program.line(), R"(ok 2.000\x0D)");
  EXPECT_EQ(program.end(), 0);
  EXPECT_FALSE(fs::exists(fifo));
}

TEST_F(Running, AControlThatIsNoFifoIsRefused) {
  const auto file = scenario("title = 't'");
  Program program({file, "--control", file});
  EXPECT_EQ(program.end(), 2);
  EXPECT_EQ(program.errors(), "tenth-sim: " + file + " is no FIFO: name a FIFO, or a new path for one\n");
  EXPECT_TRUE(fs::exists(file));
}

TEST_F(Running, ASignalEndsItInOrder) {
  for (const int number : {SIGTERM, SIGINT}) {
    Program program({scenario("title = 't'\nstay = true")});
    EXPECT_EQ(program.line(), "ready");
    EXPECT_TRUE(program.runs_for(std::chrono::milliseconds(100))) << "told to stay";
    EXPECT_TRUE(fs::is_symlink(folder_ / "mic"));
    program.signal(number);
    EXPECT_EQ(program.end(), 0);
    EXPECT_FALSE(fs::is_symlink(folder_ / "mic"));
  }
}

TEST_F(Running, PathsLieInTheFolderNamed) {
  Program program({scenario("title = 't'\nstay = true"), "--dir", folder_ / "ports"});
  EXPECT_EQ(program.line(), "ready");
  EXPECT_TRUE(fs::is_symlink(folder_ / "ports/mic"));
}

TEST_F(Running, AnActThatCannotBeDoneIsStatusOne) {
  Program program({scenario("title = 't'\nplay = ['hangup mic', 'press mic 1']")});
  EXPECT_EQ(program.end(), 1);
  EXPECT_EQ(program.errors(), "mic \ntenth-sim: act 2 of play: mic is hung up: return it first\n");
}

TEST_F(Running, APathInUseIsStatusOne) {
  std::ofstream(folder_ / "mic") << "no link";
  Program program({scenario("title = 't'")});
  EXPECT_EQ(program.end(), 1);
  EXPECT_NE(program.errors().find("mic is there already"), std::string::npos);
}

TEST_F(Running, WrongWordsAndScenariosAreStatusTwo) {
  Program wordless({});
  EXPECT_EQ(wordless.end(), 2);
  Program missing({folder_ / "none.toml"});
  EXPECT_EQ(missing.end(), 2);
  EXPECT_NE(missing.errors().find("none.toml: cannot be read"), std::string::npos);
  const auto file = scenario("title = 't'\nplay = ['press bore']");
  Program wrong({file});
  EXPECT_EQ(wrong.end(), 2);
  EXPECT_EQ(wrong.errors(), "tenth-sim: " + file + ":2:9: no gauge 'bore': the gauges are mic\n");
  EXPECT_FALSE(fs::is_symlink(folder_ / "mic"));
}

// A question is answered, a stream streams, and what follows a rocking waits for its end; all on the real clock.
TEST_F(Running, AnswersAndStreamsAndWaitsForARocking) {
  const auto file = scenario(
      "title = 't'\nplay = ['wait told', 'stream mic start', 'rock mic 10 passes 1 period_ms 300', 'press mic 99']\n"
      "[[gauge]]\nname = 'probe'\npath = 'probe'\nspeaks = 'query'\nask = 'R'\ndelay_ms = 50");
  Program program({file, "--control", "-"});
  EXPECT_EQ(program.line(), "ready");
  const Reader mic(folder_ / "mic"), probe(folder_ / "probe");
  const auto asked = std::chrono::steady_clock::now();
  probe.write("R");
  EXPECT_EQ(probe.read(6), "0.000\r");
  EXPECT_GE(std::chrono::steady_clock::now() - asked, std::chrono::milliseconds(50));
  const auto begun = std::chrono::steady_clock::now();
  EXPECT_EQ(program.tell("go"), "ok");
  std::string shown;
  while (!shown.ends_with("99.000\r") && shown.size() < 1000) shown += mic.read(1);
  EXPECT_GE(std::chrono::steady_clock::now() - begun, std::chrono::milliseconds(300));
  EXPECT_GE(std::ranges::count(shown, '\r'), 3) << shown;
  EXPECT_EQ(program.tell("rock mic 10 passes 2"), "ok 2000 ms");
}

TEST_F(Running, ServesTcpUnderItsLink) {
  const auto file = scenario("title = 't'\n[[gauge]]\nname = 'g'\npath = 'g'\ntcp = '127.0.0.1:0'\nspeaks = 'line'");
  Program program({file, "--control", "-"});
  EXPECT_EQ(program.line(), "ready");
  const auto address = fs::read_symlink(folder_ / "g").string();
  const Reader client(connected(address));
  EXPECT_EQ(program.tell("press g 1"), R"(ok 1.000\x0D)");
  EXPECT_EQ(client.read(6), "1.000\r");
  EXPECT_EQ(program.tell("hangup g"), "ok");
  EXPECT_EQ(client.read(1), "") << "hung up";
  EXPECT_EQ(program.tell("return g"), "ok " + address);
}

/// Processor time of a process, in clock ticks (proc(5): fields 14 and 15 of stat).
long ticks_of(pid_t process) {
  std::ifstream stat("/proc/" + std::to_string(process) + "/stat");
  std::string word;
  long user = 0, system = 0;
  for (int i = 0; i < 13; ++i) stat >> word;
  stat >> user >> system;
  return user + system;
}

TEST_F(Running, SleepsWhenNothingHappens) {
  const auto file =
      scenario("title = 't'\nstay = true\n[[gauge]]\nname = 'g'\npath = 'g'\ntcp = '127.0.0.1:0'\nspeaks = 'line'");
  Program program({file});
  EXPECT_EQ(program.line(), "ready");
  {
    const Reader client(connected(fs::read_symlink(folder_ / "g").string())), mic(folder_ / "mic");
    mic.write("nobody asked");
    EXPECT_TRUE(program.runs_for(std::chrono::milliseconds(100)));
  }
  const auto before = ticks_of(program.process());
  EXPECT_TRUE(program.runs_for(std::chrono::milliseconds(500))) << "a client has come and gone";
  EXPECT_LE(ticks_of(program.process()) - before, 2) << "of 50";
}

TEST(Run, HelpAndVersion) {
  std::ostringstream out, err;
  EXPECT_EQ(run(std::vector<std::string_view>{"--help"}, out, err), 0);
  EXPECT_EQ(out.str().substr(0, 10), "tenth-sim:");
  out.str("");
  EXPECT_EQ(run(std::vector<std::string_view>{"--version"}, out, err), 0);
  EXPECT_EQ(out.str(), std::string("tenth-sim ") + TENTH_VERSION + "\n");
  EXPECT_EQ(err.str(), "");
}

}  // namespace
}  // namespace tenth::simulators
