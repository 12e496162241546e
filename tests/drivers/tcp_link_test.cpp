#include <gtest/gtest.h>

#include <atomic>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/read.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/asio/write.hpp>
#include <exception>
#include <optional>

#include "drivers/link/open_port.hpp"
#include "tests/drivers/recording.hpp"

namespace tenth::drivers {
namespace {

namespace asio = boost::asio;
using asio::ip::tcp;

std::string characters(const std::vector<Received>& bytes) {
  std::string text;
  for (const Received each : bytes) text.push_back(static_cast<char>(each.byte));
  return text;
}

void rethrow(const std::exception_ptr& error) {
  if (error) std::rethrow_exception(error);
}

asio::awaitable<void> connect(Link& link, std::optional<Result<void>>& answer) {
  answer = co_await link.connect();
}

asio::awaitable<void> read(Link& link, std::optional<Chunk>& chunk) {
  chunk = co_await link.read();
}

class TcpLinkTest : public testing::Test {
 protected:
  TcpLinkTest() : server_(loop_, tcp::endpoint(asio::ip::address_v4::loopback(), 0)), peer_(loop_) {}
  std::string service() const { return std::to_string(server_.local_endpoint().port()); }
  /// By a name that stands for this machine, counting how often it is looked up.
  std::unique_ptr<Link> open_by_name() {
    return *open_tcp(loop_.get_executor(), "server.shop", service(),
                     [this, port = server_.local_endpoint().port()](const std::string&, const std::string&) {
                       ++asked_;
                       return Named{{tcp::endpoint(asio::ip::address_v4::loopback(), port)}, ""};
                     });
  }
  std::unique_ptr<Link> open() { return *open_tcp(loop_.get_executor(), "127.0.0.1", service()); }
  Result<void> connected(Link& link) {
    std::optional<Result<void>> answer;
    asio::co_spawn(loop_, connect(link, answer), rethrow);
    run([&] { return answer.has_value(); });
    return answer.value();
  }
  Chunk next(Link& link) {
    std::optional<Chunk> chunk;
    asio::co_spawn(loop_, read(link, chunk), rethrow);
    run([&] { return chunk.has_value(); });
    return chunk.value();
  }
  template <class Done>
  void run(Done done) {
    loop_.restart();
    while (!done() && loop_.run_one_for(std::chrono::seconds(5)) > 0) {
    }
  }

  asio::io_context loop_;
  tcp::acceptor server_;
  tcp::socket peer_;
  std::atomic<int> asked_{0};
};

TEST_F(TcpLinkTest, FindsTheOtherSideAndReadsWhatItSends) {
  const auto link = open();
  EXPECT_FALSE(link->connected());
  EXPECT_EQ(link->wire(), Wire::network);
  ASSERT_TRUE(connected(*link));
  EXPECT_TRUE(link->connected());
  server_.accept(peer_);
  asio::write(peer_, asio::buffer("83.01\r", 6));
  EXPECT_EQ(characters(next(*link).bytes), "83.01\r");
  EXPECT_TRUE(link->write("R\r"));
  char asked[2] = {};
  asio::read(peer_, asio::buffer(asked));
  EXPECT_EQ(std::string(asked, 2), "R\r");
}

TEST_F(TcpLinkTest, ReadsWhatCameBeforeTheOtherSideClosed) {
  const auto link = open();
  ASSERT_TRUE(connected(*link));
  server_.accept(peer_);
  asio::write(peer_, asio::buffer("83.01\r", 6));
  peer_.close();
  const Chunk chunk = next(*link);
  EXPECT_EQ(characters(chunk.bytes), "83.01\r");
  EXPECT_FALSE(chunk.gone);
  EXPECT_TRUE(next(*link).gone);
}

TEST_F(TcpLinkTest, NobodyThereIsAbsentAndTheNameIsSaid) {
  const std::string free = service();
  server_.close();
  const auto link = *open_tcp(loop_.get_executor(), "127.0.0.1", free);
  const auto answer = connected(*link);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().code, "absent");
  EXPECT_NE(answer.error().message.find("tcp:127.0.0.1:" + free), std::string::npos) << answer.error().message;
  EXPECT_EQ((*open_tcp(loop_.get_executor(), "::1", "4001"))->device(), "tcp:[::1]:4001");
}

TEST_F(TcpLinkTest, ClosingEndsAWait) {
  const auto link = open();
  ASSERT_TRUE(connected(*link));
  std::optional<Chunk> chunk;
  asio::co_spawn(loop_, read(*link, chunk), rethrow);
  loop_.restart();
  loop_.poll();
  link->close();
  run([&] { return chunk.has_value(); });
  ASSERT_TRUE(chunk);
  EXPECT_TRUE(chunk->gone);
}

TEST_F(TcpLinkTest, ANameIsLookedUpOnceForManyTries) {
  const auto link = open_by_name();
  server_.close();
  for (int i = 0; i < 5; ++i) EXPECT_EQ(connected(*link).error().code, "absent");
  EXPECT_EQ(asked_, 1);
}

TEST_F(TcpLinkTest, ALinkThatWasRefusedConnectsOnceTheOtherSideListens) {
  const auto link = open_by_name();
  const tcp::endpoint place = server_.local_endpoint();
  server_.close();
  ASSERT_FALSE(connected(*link));
  server_ = tcp::acceptor(loop_, place);
  ASSERT_TRUE(connected(*link));
  server_.accept(peer_);
  asio::write(peer_, asio::buffer("83.01\r", 6));
  EXPECT_EQ(characters(next(*link).bytes), "83.01\r");
}

TEST_F(TcpLinkTest, ANameThatNobodyKnowsIsSaidSo) {
  const auto link = *open_tcp(loop_.get_executor(), "nosuch", "4001",
                              [](const std::string&, const std::string&) { return Named{{}, "not found"}; });
  const auto answer = connected(*link);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().code, "unknown_host") << "asked again later than one that is known";
  EXPECT_NE(answer.error().message.find("nosuch"), std::string::npos);
}

}  // namespace
}  // namespace tenth::drivers
