#include "cli/socket.hpp"

#include <gtest/gtest.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <array>
#include <cstring>
#include <map>
#include <sstream>
#include <thread>

#include "cli/client.hpp"
#include "schema/wire/rpc.hpp"
#include "tests/support/folder.hpp"

namespace tenth::cli {
namespace {

constexpr std::chrono::milliseconds kSoon{2000};

/// The other end of a socket, in the test's own hands.
class SocketTest : public testing::Test {
 protected:
  SocketTest() {
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    std::memcpy(address.sun_path, path.data(), path.size());
    listener_ = ::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
    EXPECT_EQ(bind(listener_, reinterpret_cast<const sockaddr*>(&address), sizeof(address)), 0);
    EXPECT_EQ(listen(listener_, 1), 0);
  }
  ~SocketTest() override {
    hang_up();
    close(listener_);
  }

  Socket connected() {
    auto made = Socket::connect(path);
    EXPECT_TRUE(made);
    peer = accept(listener_, nullptr, nullptr);
    return std::move(*made);
  }
  void say(const std::string& bytes) const {
    EXPECT_EQ(write(peer, bytes.data(), bytes.size()), static_cast<ssize_t>(bytes.size()));
  }
  std::string heard() const {
    std::array<char, 256> block{};
    const auto count = read(peer, block.data(), block.size());
    return count > 0 ? std::string(block.data(), static_cast<std::size_t>(count)) : "";
  }
  void hang_up() {
    if (peer >= 0) close(peer);
    peer = -1;
  }

  const Folder folder;
  const std::string path = folder / "s";
  int peer = -1;

 private:
  int listener_ = -1;
};

TEST_F(SocketTest, SendsALineWithItsEnd) {
  auto socket = connected();
  ASSERT_TRUE(socket.send_line("{\"a\":1}"));
  EXPECT_EQ(heard(), "{\"a\":1}\n");
}

TEST_F(SocketTest, ReadsLinesHoweverTheyAreCut) {
  auto socket = connected();
  say("one\ntwo\n\nth");
  EXPECT_EQ(socket.read_line(kSoon).value(), "one");
  EXPECT_EQ(socket.read_line(kSoon).value(), "two");
  EXPECT_EQ(socket.read_line(kSoon).value(), "");
  std::thread rest([this] {
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
    say("r");
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
    say("ee\n");
  });
  EXPECT_EQ(socket.read_line(std::nullopt).value(), "three");
  rest.join();
}

TEST_F(SocketTest, ReadsALineLongerThanOneRead) {
  auto socket = connected();
  const std::string longer(300'000, 'x');
  std::thread talk([this, &longer] { say(longer + "\nafter\n"); });
  EXPECT_EQ(socket.read_line(kSoon).value(), longer);
  EXPECT_EQ(socket.read_line(kSoon).value(), "after");
  talk.join();
}

TEST_F(SocketTest, LosesPatience) {
  auto socket = connected();
  say("half a li");
  const auto line = socket.read_line(std::chrono::milliseconds(30));
  ASSERT_FALSE(line);
  EXPECT_EQ(line.error().exit, Exit::unreachable);
  EXPECT_NE(line.error().message.find("does not answer"), std::string::npos);
}

TEST_F(SocketTest, NeverGivesHalfALine) {
  auto socket = connected();
  say("whole\nhalf");
  hang_up();
  EXPECT_EQ(socket.read_line(kSoon).value(), "whole");
  const auto half = socket.read_line(kSoon);
  ASSERT_FALSE(half);
  EXPECT_EQ(half.error().exit, Exit::unreachable);
}

TEST_F(SocketTest, SaysThatNobodyTakesALine) {
  auto socket = connected();
  hang_up();
  Result<bool> sent = true;
  for (int i = 0; sent && i < 10; ++i) sent = socket.send_line("x");
  ASSERT_FALSE(sent);  // and no SIGPIPE ended the test
  EXPECT_EQ(sent.error().exit, Exit::unreachable);
}

TEST_F(SocketTest, MovesWithWhatItHasRead) {
  auto first = connected();
  say("one\ntwo\n");
  EXPECT_EQ(first.read_line(kSoon).value(), "one");
  Socket second = std::move(first);
  EXPECT_EQ(second.read_line(kSoon).value(), "two");
}

TEST(SocketPath, IsTheOptionTheVariableTheUsersOrTheMachines) {
  std::map<std::string, std::string> environment;
  std::istringstream in;
  std::ostringstream out, err;
  const World world{in, out, err, false, false, false, [&](const std::string& name) {
                      const auto found = environment.find(name);
                      return found == environment.end() ? std::string() : found->second;
                    }};
  EXPECT_EQ(socket_path("", world), "/run/tenth/tenthd.sock");
  environment["XDG_RUNTIME_DIR"] = "/nowhere";
  EXPECT_EQ(socket_path("", world), "/nowhere/tenth/tenthd.sock");
  environment["TENTH_SOCKET"] = "/named.sock";
  EXPECT_EQ(socket_path("", world), "/named.sock");
  EXPECT_EQ(socket_path("/given.sock", world), "/given.sock");
}

}  // namespace
}  // namespace tenth::cli
