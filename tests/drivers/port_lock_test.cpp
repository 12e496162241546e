#include "drivers/link/port_lock.hpp"

#include <gtest/gtest.h>
#include <sys/file.h>
#include <sys/ioctl.h>

#include "drivers/link/open_port.hpp"
#include "tests/drivers/link_reader.hpp"
#include "tests/drivers/other_program.hpp"
#include "tests/support/pty.hpp"

namespace tenth::drivers {
namespace {

using test::LinkReader;
using test::OtherProgram;
using test::Pty;

int open_only(const std::string& path) {
  return ::open(path.c_str(), O_RDWR | O_NOCTTY | O_CLOEXEC);
}

bool is_exclusive(int descriptor) {
  int exclusive = 0;
  return ioctl(descriptor, TIOCGEXCL, &exclusive) == 0 && exclusive != 0;
}

class PortLockTest : public testing::Test {
 protected:
  Result<std::unique_ptr<Link>> open() { return open_serial(reader_.executor(), pty_.path(), {}); }

  void expect_in_use_by(const OtherProgram& other) {
    const auto link = open();
    ASSERT_FALSE(link);
    EXPECT_EQ(link.error().code, "in_use");
    EXPECT_NE(link.error().message.find(test::kOtherName), std::string::npos) << link.error().message;
    EXPECT_NE(link.error().message.find(other.process()), std::string::npos) << link.error().message;
  }

  Pty pty_;
  LinkReader reader_;
};

TEST_F(PortLockTest, NamesTheProgramThatHoldsTheLock) {
  const OtherProgram only_opens([this] { open_only(pty_.path()); });
  const OtherProgram other([this] { flock(open_only(pty_.path()), LOCK_EX); });
  expect_in_use_by(other);
}

TEST_F(PortLockTest, NamesTheProgramThatHasThePortExclusively) {
  OtherProgram other([this] { ioctl(open_only(pty_.path()), TIOCEXCL); });
  expect_in_use_by(other);
}

TEST_F(PortLockTest, IsFreeAgainWhenTheLockIsGone) {
  OtherProgram other([this] { flock(open_only(pty_.path()), LOCK_EX); });
  EXPECT_FALSE(open());
  other.kill();
  EXPECT_TRUE(open());
}

TEST_F(PortLockTest, AnOpenDescriptorAloneIsNotUse) {
  const OtherProgram other([this] { open_only(pty_.path()); });
  EXPECT_TRUE(open());
}

TEST_F(PortLockTest, IsNotGivenTwice) {
  const auto first = open();
  ASSERT_TRUE(first);
  const auto second = open();
  ASSERT_FALSE(second);
  EXPECT_EQ(second.error().code, "in_use");
  EXPECT_NE(second.error().message.find(std::to_string(getpid())), std::string::npos) << second.error().message;
}

TEST_F(PortLockTest, KeepsOthersOutUntilItIsClosed) {
  const int other = open_only(pty_.path());
  auto link = open();
  ASSERT_TRUE(link);
  EXPECT_NE(flock(other, LOCK_EX | LOCK_NB), 0);
  EXPECT_EQ(is_exclusive(other), geteuid() == 0);
  (*link)->close();
  EXPECT_EQ(flock(other, LOCK_EX | LOCK_NB), 0);
  EXPECT_FALSE(is_exclusive(other));
  ::close(other);
}

/// `kill -9` while the other side of the pseudo-terminal stays, and somebody looks on.
TEST_F(PortLockTest, WhatAKilledDaemonLeftBehindKeepsNobodyOut) {
  const OtherProgram onlooker([this] { open_only(pty_.path()); });
  OtherProgram daemon([this] {
    static LinkReader reader;
    static const auto held = open_serial(reader.executor(), pty_.path(), {});
  });
  EXPECT_EQ(open().error().code, "in_use");
  daemon.kill();
  const auto link = open();
  EXPECT_TRUE(link) << link.error().message;
}

TEST_F(PortLockTest, AfterAnOrderlyCloseExclusiveMeansInUseAgain) {
  ASSERT_TRUE(open());
  const OtherProgram other([this] { ioctl(open_only(pty_.path()), TIOCEXCL); });
  expect_in_use_by(other);
}

TEST_F(PortLockTest, ExclusiveWithoutAnyHolderIsNotUse) {
  if (geteuid() != 0) GTEST_SKIP() << "the kernel lets only root past TIOCEXCL";
  OtherProgram other([this] { ioctl(open_only(pty_.path()), TIOCEXCL); });
  other.kill();
  EXPECT_TRUE(open());
}

TEST_F(PortLockTest, KnowsAPseudoTerminal) {
  const int port = open_only(pty_.path());
  const int other = ::open("/dev/null", O_RDONLY | O_CLOEXEC);
  EXPECT_TRUE(is_pseudo_terminal(port));
  EXPECT_FALSE(is_pseudo_terminal(other));
  ::close(port);
  ::close(other);
}

}  // namespace
}  // namespace tenth::drivers
