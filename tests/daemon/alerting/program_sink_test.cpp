#include "daemon/alerting/program_sink.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <boost/asio/io_context.hpp>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <functional>
#include <sstream>

#include "tests/daemon/log_text.hpp"
#include "tests/support/folder.hpp"

namespace tenth {
namespace {

using std::chrono::milliseconds;
namespace fs = std::filesystem;

class ProgramSinkTest : public testing::Test {
 protected:
  /// A program that runs this script, which no shell of ours does.
  std::string program(const std::string& script) const {
    const fs::path path = folder_ / "program";
    std::ofstream(path) << "#!/bin/sh\ncd '" << folder_.path().string() << "'\n" << script << "\n";
    fs::permissions(path, fs::perms::owner_all);
    return path;
  }
  std::string file(const std::string& name) const {
    std::ifstream stream(folder_ / name);
    return {std::istreambuf_iterator<char>(stream), {}};
  }
  bool until(const std::function<bool()>& holds) {
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(20);
    while (!holds() && std::chrono::steady_clock::now() < end) loop_.run_for(milliseconds(2));
    return holds();
  }

  Folder folder_;
  LogText log_;
  boost::asio::io_context loop_;
};

TEST_F(ProgramSinkTest, GetsEachLineOnItsStandardInputInOrder) {
  ProgramSink sink(loop_.get_executor(), {program("echo \"$# $1\" >> words; cat >> heard"), "to $HOME; rm *"});
  sink.tell(R"({"id":1})");
  sink.tell(R"({"id":2})");
  ASSERT_TRUE(until([&] { return file("heard") == "{\"id\":1}\n{\"id\":2}\n"; })) << log_.str();
  EXPECT_EQ(file("words"), "1 to $HOME; rm *\n1 to $HOME; rm *\n");
  EXPECT_EQ(log_.str(), "");
}

TEST_F(ProgramSinkTest, OneThatDoesNotReadIsNoHarm) {
  ProgramSink sink(loop_.get_executor(), {program("echo . >> ran")});
  sink.tell(std::string(300'000, 'x'));
  sink.tell("2");
  EXPECT_TRUE(until([&] { return file("ran") == ".\n.\n"; })) << log_.str();
}

TEST_F(ProgramSinkTest, OneThatHangsIsKilledWithItsChildrenAndTheNextIsTold) {
  const auto began = std::chrono::steady_clock::now();
  ProgramSink sink(loop_.get_executor(), {program("echo $$ >> pids; sleep 300 & echo $! >> pids; wait")},
                   milliseconds(300));
  sink.tell("1");
  sink.tell("2");
  ASSERT_TRUE(until([&] { return log_.str().find("killed") != log_.str().rfind("killed"); })) << log_.str();
  EXPECT_GE(std::chrono::steady_clock::now() - began, milliseconds(600));
  std::istringstream pids(file("pids"));
  int count = 0;
  for (pid_t pid = 0; pids >> pid; ++count)
    EXPECT_TRUE(until([&] {
      return kill(pid, 0) != 0 || fs::exists("/proc/" + std::to_string(pid)) == false ||
             std::ifstream("/proc/" + std::to_string(pid) + "/cmdline").peek() == EOF;
    })) << pid
        << " still runs";
  EXPECT_EQ(count, 4);
}

TEST_F(ProgramSinkTest, WhatOneLeavesBehindEndsWithIt) {
  ProgramSink sink(loop_.get_executor(), {program("sleep 300 > /dev/null 2>&1 & echo $! > pid")});
  sink.tell("1");
  ASSERT_TRUE(until([&] { return !file("pid").empty(); })) << log_.str();
  const std::string left = "/proc/" + std::to_string(std::stoi(file("pid"))) + "/cmdline";
  EXPECT_TRUE(until([&] { return std::ifstream(left).peek() == EOF; }));
}

TEST_F(ProgramSinkTest, OneThatNeverStopsTalkingIsBounded) {
  ProgramSink sink(loop_.get_executor(), {program("yes \"$(printf 'a\\033[31mb')\"")}, milliseconds(300));
  sink.tell("1");
  ASSERT_TRUE(until([&] { return log_.str().find("killed") != std::string::npos; }));
  EXPECT_NE(log_.str().find("killed: a\\x1B[31mb"), std::string::npos) << log_.str();
  EXPECT_LT(log_.str().size(), 400U);
}

TEST_F(ProgramSinkTest, OneThatFailsIsLoggedWithItsFirstLine) {
  ProgramSink sink(loop_.get_executor(), {program("echo no mail today >&2; echo more; exit 7")});
  sink.tell("1");
  ASSERT_TRUE(until([&] { return !log_.str().empty(); }));
  EXPECT_NE(log_.str().find("ended with 7: no mail today"), std::string::npos) << log_.str();
  EXPECT_EQ(log_.str().find("more"), std::string::npos);
}

TEST_F(ProgramSinkTest, OneThatIsNotThereIsLoggedAndTheNextIsTried) {
  ProgramSink sink(loop_.get_executor(), {folder_ / "program"});
  sink.tell("1");
  ASSERT_TRUE(until([&] { return log_.str().find("cannot be started: No such file") != std::string::npos; }))
      << log_.str();
  program("cat > heard");
  sink.tell("2");
  EXPECT_TRUE(until([&] { return file("heard") == "2\n"; })) << log_.str();
}

TEST_F(ProgramSinkTest, InheritsNoDescriptorOfOurs) {
  const int kept = dup(STDOUT_FILENO);  // without close-on-exec, as libraries leave them
  ProgramSink sink(loop_.get_executor(), {program("ls /proc/$$/fd > fds")});
  sink.tell("1");
  ASSERT_TRUE(until([&] { return !file("fds").empty(); })) << log_.str();
  close(kept);
  // The three streams, and the shell's own of its script (at 10 or above).
  std::istringstream fds(file("fds"));
  std::vector<int> open;
  for (int fd = 0; fds >> fd;)
    if (fd < 10) open.push_back(fd);
  EXPECT_EQ(open, (std::vector<int>{0, 1, 2}));
}

TEST_F(ProgramSinkTest, ASlowOneLosesTheOldestAndTheLogSaysSo) {
  ProgramSink sink(loop_.get_executor(), {program("cat >> heard")});
  for (int n = 0; n < 70; ++n) sink.tell(std::to_string(n));
  ASSERT_TRUE(until([&] { return file("heard").ends_with("69\n"); })) << log_.str();
  EXPECT_EQ(file("heard").substr(0, 4), "6\n7\n");
  EXPECT_NE(log_.str().find("too slow; this is not told to it: 5"), std::string::npos);
}

TEST_F(ProgramSinkTest, ALoopThatEndsTakesTheProgramWithIt) {
  {
    boost::asio::io_context loop;
    ProgramSink sink(loop.get_executor(), {program("echo $$ > pids; exec sleep 300")});
    sink.tell("1");
    while (file("pids").empty()) loop.run_for(milliseconds(2));
  }
  EXPECT_NE(kill(std::stoi(file("pids")), 0), 0);
}

}  // namespace
}  // namespace tenth
