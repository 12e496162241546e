#include "daemon/alerting/http_sink.hpp"

#include <gtest/gtest.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/read_until.hpp>
#include <boost/asio/write.hpp>
#include <functional>
#include <memory>
#include <vector>

namespace tenth {
namespace {

namespace asio = boost::asio;
using asio::ip::tcp;
using std::chrono::milliseconds;

/// A server that notes what it was sent and answers as the test wrote down, the last answer for ever; an empty one
/// means silence.
class Receiver {
 public:
  Receiver(asio::io_context& loop, std::vector<std::string> answers)
      : acceptor_(loop, {asio::ip::address_v4::loopback(), 0}), answers_(std::move(answers)) {
    accept();
  }
  HttpTarget target() const {
    return {"127.0.0.1", std::to_string(acceptor_.local_endpoint().port()), "/alerts?for=ann"};
  }
  std::vector<std::string> heads, bodies;

 private:
  struct Talk {
    explicit Talk(tcp::socket taken) : socket(std::move(taken)) {}
    tcp::socket socket;
    std::string text, answer;
  };

  void accept() {
    acceptor_.async_accept([this](const boost::system::error_code& error, tcp::socket socket) {
      if (error) return;
      talks_.push_back(std::make_unique<Talk>(std::move(socket)));
      read(*talks_.back());
      accept();
    });
  }
  void read(Talk& talk) {
    asio::async_read_until(talk.socket, asio::dynamic_buffer(talk.text), "}",
                           [this, &talk](const boost::system::error_code& error, std::size_t) {
                             if (!error) answer(talk);
                           });
  }
  void answer(Talk& talk) {
    const std::size_t end = talk.text.find("\r\n\r\n");
    heads.push_back(talk.text.substr(0, end));
    bodies.push_back(talk.text.substr(end + 4));
    talk.answer = answers_[std::min(bodies.size(), answers_.size()) - 1];
    if (talk.answer.empty()) return;
    talk.answer = "HTTP/1.1 " + talk.answer + "\r\nContent-Length: 0\r\n\r\n";
    asio::async_write(talk.socket, asio::buffer(talk.answer), [&talk](const boost::system::error_code&, std::size_t) {
      boost::system::error_code ignored;
      talk.socket.shutdown(tcp::socket::shutdown_send, ignored);
    });
  }

  tcp::acceptor acceptor_;
  std::vector<std::string> answers_;
  std::vector<std::unique_ptr<Talk>> talks_;
};

class HttpSinkTest : public testing::Test {
 protected:
  bool until(const std::function<bool()>& holds) {
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(20);
    while (!holds() && std::chrono::steady_clock::now() < end) loop_.run_for(milliseconds(2));
    return holds();
  }
  HttpSink sink(const HttpTarget& target) {
    return {loop_.get_executor(), target, {milliseconds(300), milliseconds(10), milliseconds(40)}};
  }
  asio::io_context loop_;
};

TEST_F(HttpSinkTest, PostsEachLineAsItsBody) {
  Receiver receiver(loop_, {"204 No Content"});
  HttpSink to = sink(receiver.target());
  to.tell(R"({"id":1})");
  to.tell(R"({"id":2})");
  ASSERT_TRUE(until([&] { return receiver.bodies.size() == 2; }));
  EXPECT_EQ(receiver.bodies, (std::vector<std::string>{R"({"id":1})", R"({"id":2})"}));
  EXPECT_TRUE(
      receiver.heads[0].starts_with("POST /alerts?for=ann HTTP/1.1\r\nHost: " + receiver.target().authority() + "\r\n"))
      << receiver.heads[0];
  EXPECT_NE(receiver.heads[0].find("Content-Type: application/json\r\n"), std::string::npos);
}

TEST_F(HttpSinkTest, PostsAgainWhatWasNotTakenAndThenTheNext) {
  Receiver receiver(loop_, {"503 Busy", "", "429 Too Many", "200 OK"});
  HttpSink to = sink(receiver.target());
  to.tell(R"({"id":1})");
  to.tell(R"({"id":2})");
  ASSERT_TRUE(until([&] { return receiver.bodies.size() == 5; }));
  EXPECT_EQ(receiver.bodies[3], R"({"id":1})");
  EXPECT_EQ(receiver.bodies[4], R"({"id":2})");
}

/// Pauses that went on doubling would be 40 s by then.
TEST_F(HttpSinkTest, ThePauseGrowsNoLongerThanItsBound) {
  Receiver receiver(loop_, {"503 Busy"});
  HttpSink to = sink(receiver.target());
  to.tell(R"({"id":1})");
  EXPECT_TRUE(until([&] { return receiver.bodies.size() == 13; }));
}

TEST_F(HttpSinkTest, WhatIsRefusedForGoodIsNotPostedAgain) {
  Receiver receiver(loop_, {"400 Bad Request", "200 OK"});
  HttpSink to = sink(receiver.target());
  to.tell(R"({"id":1})");
  to.tell(R"({"id":2})");
  ASSERT_TRUE(until([&] { return receiver.bodies.size() == 2; }));
  EXPECT_EQ(receiver.bodies[1], R"({"id":2})");
}

TEST_F(HttpSinkTest, WaitsForAServerThatIsNotThereYet) {
  HttpTarget target = Receiver(loop_, {"200 OK"}).target();
  HttpSink to = sink(target);
  to.tell(R"({"id":1})");
  loop_.run_for(milliseconds(100));
  tcp::acceptor late(loop_,
                     {asio::ip::address_v4::loopback(), static_cast<asio::ip::port_type>(std::stoi(target.port))});
  bool came = false;
  late.async_accept([&](const boost::system::error_code& error, const tcp::socket&) { came = !error; });
  EXPECT_TRUE(until([&] { return came; }));
}

TEST_F(HttpSinkTest, AnAnswerWithoutEndIsBounded) {
  Receiver receiver(loop_, {"200 OK\r\nX: " + std::string(1 << 20, 'x'), "200 OK"});
  HttpSink to = sink(receiver.target());
  to.tell(R"({"id":1})");
  EXPECT_TRUE(until([&] { return receiver.bodies.size() == 2; }));
}

TEST(HttpTargetTest, TakesAUrlApart) {
  EXPECT_EQ(parse_http_target("http://pager").value(), (HttpTarget{"pager", "80", "/"}));
  EXPECT_EQ(parse_http_target("http://10.0.0.7:8080/a/b?c=d").value(), (HttpTarget{"10.0.0.7", "8080", "/a/b?c=d"}));
  EXPECT_EQ(parse_http_target("http://pager?x").value(), (HttpTarget{"pager", "80", "/?x"}));
  EXPECT_EQ(parse_http_target("http://[::1]:81/").value(), (HttpTarget{"::1", "81", "/"}));
  EXPECT_EQ(parse_http_target("http://[::1]").value().authority(), "[::1]");
  EXPECT_EQ(parse_http_target("http://pager:81").value().authority(), "pager:81");
}

TEST(HttpTargetTest, RefusesWhatIsNone) {
  for (const char* wrong : {"", "pager", "http://", "http:///x", "http://:80", "http://a:0", "http://a:65536",
                            "http://a:x", "http://a:", "http://ann@pager/", "http://a/\r\nX: y", "http://a b/",
                            "http://[::1/", "ftp://a", "http://[::1]x/", "http://a/#b"})
    EXPECT_FALSE(parse_http_target(wrong)) << wrong;
  EXPECT_EQ(parse_http_target("https://pager/").error().exit, Exit::words);
}

}  // namespace
}  // namespace tenth
