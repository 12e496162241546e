#include "simulators/tcp_port.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include "bench.hpp"

namespace tenth::simulators {
namespace {

namespace fs = std::filesystem;

std::unique_ptr<TcpPort> opened(const fs::path& link = {}) {
  return TcpPort::open({"127.0.0.1", 0}, link).value();
}

/// Until that much was heard, or a second is over.
std::string heard(TcpPort& port, std::size_t count) {
  std::string bytes;
  for (int tries = 0; tries < 50 && bytes.size() < count; ++tries) {
    pollfd waiting{port.descriptor(), POLLIN, 0};
    if (::poll(&waiting, 1, 20) > 0) bytes += port.hear();
  }
  return bytes;
}

/// What comes at once.
std::string heard_at_once(TcpPort& port) {
  std::string bytes;
  pollfd waiting{port.descriptor(), POLLIN, 0};
  for (int i = 0; i < 10 && ::poll(&waiting, 1, 20) > 0; ++i) bytes += port.hear();
  return bytes;
}

TEST(TcpPort, ItsLinkSaysWhereItListens) {
  const Folder folder;
  {
    const auto port = opened(folder / "deep/probe");
    EXPECT_NE(port->address().port, 0);
    EXPECT_EQ(port->where(), "127.0.0.1:" + std::to_string(port->address().port));
    EXPECT_EQ(fs::read_symlink(folder / "deep/probe"), port->where());
  }
  EXPECT_FALSE(fs::is_symlink(folder / "deep/probe"));
}

TEST(TcpPort, LeavesALinkThatIsNoLongerItsOwn) {
  const Folder folder;
  auto port = opened(folder / "probe");
  const auto after = opened(folder / "probe");
  port.reset();
  EXPECT_EQ(fs::read_symlink(folder / "probe"), after->where());
}

TEST(TcpPort, BytesGoBothWaysAsTheyAre) {
  const auto port = opened();
  const Reader client(connected(port->where()));
  client.write("R\r");
  EXPECT_EQ(heard(*port, 2), "R\r");
  const std::string bytes("\x00\xFF\r\n", 4);
  ASSERT_TRUE(port->send(bytes));
  EXPECT_EQ(client.read(4), bytes);
}

TEST(TcpPort, SendsToAClientThatHasJustCome) {
  const auto port = opened();
  const Reader client(connected(port->where()));
  ASSERT_TRUE(port->send("1\r")) << "before poll has told of it";
  EXPECT_EQ(client.read(2), "1\r");
}

TEST(TcpPort, WithoutAClientNothingIsSent) {
  const auto port = opened();
  EXPECT_EQ(port->send("1").error(), "nobody is connected to " + port->where());
}

TEST(TcpPort, HasOneClientAtATime) {
  const auto port = opened();
  Reader first(connected(port->where()));
  ASSERT_TRUE(port->send("1"));
  const Reader second(connected(port->where()));
  EXPECT_EQ(heard_at_once(*port), "");
  EXPECT_EQ(second.read(1), "");
  ASSERT_TRUE(port->send("2"));
  EXPECT_EQ(first.read(2), "12");
  first.close();
  const Reader third(connected(port->where()));
  EXPECT_EQ(heard_at_once(*port), "");
  ASSERT_TRUE(port->send("3"));
  EXPECT_EQ(third.read(1), "3");
}

TEST(TcpPort, ClosingEndsConnectionAndListenerAndWhatWasSentArrives) {
  auto port = opened();
  const auto address = port->address();
  const Reader client(connected(port->where()));
  ASSERT_TRUE(port->send("last"));
  client.write("never heard");
  const auto where = port->where();
  port.reset();
  EXPECT_EQ(client.read(4), "last");
  char byte = 0;
  EXPECT_EQ(::read(client.descriptor(), &byte, 1), 0) << "an end, and no reset, though something was not heard";
  EXPECT_EQ(connected(where), -1);
  const auto again = TcpPort::open(address, {}).value();
  EXPECT_EQ(again->where(), where);
}

TEST(TcpPort, ATakenPortOrPathIsRefused) {
  const Folder folder;
  const auto port = opened();
  EXPECT_EQ(TcpPort::open(port->address(), {}).error(), port->where() + ": Address already in use");
  std::ofstream(folder / "file") << "kept";
  EXPECT_NE(TcpPort::open({"127.0.0.1", 0}, folder / "file").error().find("is there already"), std::string::npos);
  EXPECT_EQ(fs::file_size(folder / "file"), 4U);
}

TEST(TcpPort, IsFullWhenNobodyReads) {
  const auto port = opened();
  const Reader client(connected(port->where()));
  const std::string much(1 << 16, 'x');
  Result<void> sent = port->send(much);
  for (int i = 0; i < 1000 && sent; ++i) sent = port->send(much);
  ASSERT_FALSE(sent);
  EXPECT_EQ(sent.error(), port->where() + " is full: nobody reads it");
}

TEST(TcpPort, SleepsWhenNothingComes) {
  const auto port = opened();
  const Reader client(connected(port->where()));
  EXPECT_EQ(heard_at_once(*port), "");
  pollfd waiting{port->descriptor(), POLLIN, 0};
  EXPECT_EQ(::poll(&waiting, 1, 50), 0);
}

TEST(ParseAddress, IsNumbersAndAPort) {
  EXPECT_EQ(parse_address("127.0.0.1:4001").value().host, "127.0.0.1");
  EXPECT_EQ(parse_address("127.0.0.1:4001").value().port, 4001);
  EXPECT_EQ(parse_address("0.0.0.0:0").value().port, 0);
  for (const auto* wrong :
       {"", "127.0.0.1", "127.0.0.1:", "127.0.0.1:65536", "127.0.0.1:-1", "127.0.0.1:4x", "bench:1"}) {
    EXPECT_EQ(parse_address(wrong).error(),
              "'" + std::string(wrong) + "' is no address: write one such as 127.0.0.1:4001");
  }
}

}  // namespace
}  // namespace tenth::simulators
