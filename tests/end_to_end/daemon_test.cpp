// Starting and stopping: sockets, second daemons, configuration, signals.
#include <sys/stat.h>

#include <csignal>
#include <fstream>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

using Start = ColdBench;
using Stop = Bench;

long lines_in(const std::string& text) {
  return std::count(text.begin(), text.end(), '\n');
}

TEST_F(Start, CommandsSayThatNoDaemonIsThere) {
  for (const Words& words : {Words{"status"},
                             {"readings"},
                             {"check"},
                             {"alerts"},
                             {"round"},
                             {"undo"},
                             {"engine", "list"},
                             {"watch"},
                             {"export", "--format", "csv"}}) {
    refused(words, 3);
  }
}

TEST_F(Start, MakesItsStateDirectory) {
  std::filesystem::remove(daemon_.state());
  daemon_.start();
  EXPECT_TRUE(std::filesystem::exists(daemon_.ledger()));
}

TEST_F(Start, TheLedgerIsForItsOwnerOnly) {
  umask(0);
  daemon_.start();
  struct stat file{};
  ASSERT_EQ(stat(daemon_.ledger().c_str(), &file), 0);
  EXPECT_EQ(file.st_mode & 07777U, 0600U);
  for (const char* side : {"-wal", "-shm"}) {
    if (stat((daemon_.ledger().string() + side).c_str(), &file) != 0) continue;
    EXPECT_EQ(file.st_mode & 0077U, 0U) << side;
  }
}

TEST_F(Start, ASecondDaemonOnTheSameStateIsRefused) {
  daemon_.start();
  const Ran second = run({tenthd_path(), "--state", daemon_.state(), "--socket", home_ / "other"});
  EXPECT_EQ(second.status, 4) << second.err;
  EXPECT_EQ(lines_in(second.err), 1) << second.err;
  EXPECT_TRUE(daemon_.running());
  done({"status"});
}

TEST_F(Start, ASecondDaemonOnTheSameSocketLeavesTheFirstReachable) {
  daemon_.start();
  const Ran second = run({tenthd_path(), "--state", home_ / "other", "--socket", daemon_.socket()}, {}, Millis(3000));
  EXPECT_EQ(second.status, 4) << second.err;
  done({"status"});
}

TEST_F(Start, AStaleSocketIsReplaced) {
  daemon_.start();
  daemon_.kill();
  ASSERT_TRUE(std::filesystem::exists(daemon_.socket()));
  refused({"status"}, 3);
  daemon_.start();
  done({"status"});
}

TEST_F(Start, AFileThatIsNoSocketIsNotRemoved) {
  write("socket", "somebody's notes");
  const Ran ran = run(daemon_.command(), {}, Millis(3000));
  EXPECT_NE(ran.status, 0);
  EXPECT_NE(ran.status, -1);
  EXPECT_EQ(std::filesystem::file_size(daemon_.socket()), 16U);
}

TEST_F(Start, AnUnknownConfigurationKeyIsWrongWords) {
  for (const char* text : {"sockte = \"x\"\n", "[intake]\nsettle = 3\n", "[itake]\nsettle_ms = 3\n", "socket = \n",
                           "[intake]\nsettle_ms = \"soon\"\n", "[intake]\nsettle_ms = -1\n"}) {
    write("tenthd.toml", text);
    const Ran ran = run(daemon_.command(), {}, Millis(3000));
    EXPECT_EQ(ran.status, 2) << text << ran.err;
    EXPECT_EQ(lines_in(ran.err), 1) << ran.err;
    EXPECT_FALSE(std::filesystem::exists(daemon_.ledger())) << text;
  }
}

TEST_F(Start, WrongWordsOfTheDaemonAreStatus2) {
  EXPECT_EQ(run({tenthd_path(), "--bogus"}).status, 2);
  EXPECT_EQ(run({tenthd_path(), "--state"}).status, 2);
  const Ran help = run({tenthd_path(), "--help"});
  EXPECT_EQ(help.status, 0);
  EXPECT_NE(help.out.find("--state"), std::string::npos);
}

TEST_F(Start, StateAndSocketComeFromTheConfiguration) {
  write("tenthd.toml",
        "state = \"" + daemon_.state().string() + "\"\nsocket = \"" + daemon_.socket().string() + "\"\n");
  Child child({tenthd_path(), "--config", daemon_.config()});
  const Deadline until = in(std::chrono::seconds(5));
  while (!answers(daemon_.socket()) && std::chrono::steady_clock::now() < until && !child.join(in(Millis(5)))) {
  }
  done({"status"});
  child.signal(SIGINT);
  EXPECT_EQ(child.join(in(std::chrono::seconds(5))), 0);
}

TEST_F(Start, APathTooLongForASocketIsOneClearLine) {
  const Ran ran =
      run({tenthd_path(), "--state", daemon_.state(), "--socket", home_ / std::string(200, 's')}, {}, Millis(3000));
  EXPECT_GT(ran.status, 0);
  EXPECT_LT(ran.status, 5);
  EXPECT_EQ(lines_in(ran.err), 1) << ran.err;
}

TEST_F(Stop, OnSigtermIsCleanAndAPartFrameIsAFault) {
  engine(single);
  gauge("g", {"--unit", "mm", "--measures", "inside"});
  done({"at", "bore"});
  cable("g").send("no number\r70.0");  // the fault tells that the part frame was read too
  watch_->next("fault");
  EXPECT_EQ(daemon_.stop(), 0);
  const auto faults = entries_of_kind(daemon_.ledger(), "fault");
  ASSERT_FALSE(faults.empty());
  EXPECT_EQ(faults.back().json()["why"], "cut_short") << faults.back().body;
  EXPECT_NE(faults.back().body.find("70.0"), std::string::npos);
  EXPECT_FALSE(answers(daemon_.socket()));
}

TEST_F(Stop, OnSigtermCompleteFramesAreStored) {
  engine(single);
  gauge("g", {"--unit", "mm", "--measures", "inside"});
  done({"at", "bore"});
  std::string burst;
  for (int i = 0; i < 200; ++i) burst += line("70.010");
  cable("g").send(burst);
  watch_->next("reading");
  EXPECT_EQ(daemon_.stop(), 0);
  EXPECT_EQ(entries_of_kind(daemon_.ledger(), "reading").size(), 200U);
}

TEST_F(Stop, IsWrittenDownWithTheVersion) {
  EXPECT_EQ(daemon_.stop(), 0);
  const auto rows = entries(daemon_.ledger());
  ASSERT_GE(rows.size(), 3U);
  EXPECT_EQ(rows[0].json()["kind"], "ledger");
  EXPECT_EQ(rows[0].json()["format"], 1);
  EXPECT_EQ(rows[0].json()["id"].get<std::string>().size(), 32U);
  EXPECT_NE(rows.back().json()["kind"], rows[1].json()["kind"]);
}

TEST_F(Stop, AWatcherEndsWhenTheDaemonDoes) {
  daemon_.stop();
  EXPECT_TRUE(watch_->child().join(in(std::chrono::seconds(3))));
}

}  // namespace
}  // namespace acceptance
