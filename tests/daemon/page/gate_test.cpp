#include "daemon/page/gate.hpp"

#include <gtest/gtest.h>

namespace tenth {
namespace {

namespace http = boost::beast::http;

Gate gate() {
  return {Token::make(), {"bench.shop.example", "192.168.7.20", "[fd00::7]"}};
}

PageRequest request(http::verb verb, const std::string& host) {
  PageRequest request(verb, "/", 11);
  request.set(http::field::host, host);
  return request;
}

unsigned status(const Gate& gate, const PageRequest& request) {
  const auto away = gate.send_away(request);
  return away ? static_cast<unsigned>(away->status) : 200;
}

TEST(Gate, OursAreLoopbackLocalhostAndTheHostsNamed) {
  const Gate ours = gate();
  for (const char* host :
       {"127.0.0.1", "127.0.0.1:8642", "127.9.8.7", "localhost", "LOCALHOST:80", "[::1]", "[::1]:8642",
        "bench.shop.example", "Bench.Shop.Example:8642", "192.168.7.20:8642", "[fd00::7]:80"})
    EXPECT_TRUE(ours.is_ours(host)) << host;
}

TEST(Gate, NothingElseIsOurs) {
  const Gate ours = gate();
  for (const char* host : {"",
                           ":80",
                           "example.org",
                           "localhost.example.org",
                           "127.0.0.1.example.org",
                           "127.1",
                           "0x7f.0.0.1",
                           "192.168.7.21",
                           "::1",
                           "[127.0.0.1]",
                           "[::1",
                           "[::2]:80",
                           "localhost:",
                           "localhost:80a",
                           "localhost:123456",
                           "user@localhost",
                           "localhost.",
                           "bench.shop.example.",
                           "0.0.0.0",
                           "localhost\t"})
    EXPECT_FALSE(ours.is_ours(host)) << host;
}

TEST(Gate, ANameThatIsNotOursIsForbiddenWhateverElseIsRight) {
  const Gate ours = gate();
  PageRequest foreign = request(http::verb::get, "example.org");
  EXPECT_EQ(status(ours, foreign), 403);
  foreign.set(http::field::authorization, "Bearer " + ours.token().text());
  EXPECT_EQ(status(ours, foreign), 403);
}

TEST(Gate, ExactlyOneHostIsNamed) {
  PageRequest twice = request(http::verb::get, "localhost");
  twice.insert(http::field::host, "example.org");
  EXPECT_EQ(status(gate(), twice), 400);
  PageRequest none(http::verb::get, "/", 10);
  EXPECT_EQ(status(gate(), none), 400);
}

TEST(Gate, AnOriginIsTheHostThatWasAsked) {
  PageRequest own = request(http::verb::get, "localhost:8642");
  own.set(http::field::origin, "http://localhost:8642");
  EXPECT_EQ(status(gate(), own), 200);
  own.set(http::field::origin, "https://LOCALHOST:8642");
  EXPECT_EQ(status(gate(), own), 200);
  for (const char* foreign :
       {"null", "", "http://example.org", "http://localhost", "http://localhost:8643", "ftp://localhost:8642",
        "http://localhost:8642.example.org", "http://127.0.0.1:8642", "localhost:8642"}) {
    own.set(http::field::origin, foreign);
    EXPECT_EQ(status(gate(), own), 403) << foreign;
  }
}

TEST(Gate, TwoOriginsAreNone) {
  PageRequest two = request(http::verb::get, "localhost");
  two.insert(http::field::origin, "http://localhost");
  two.insert(http::field::origin, "http://example.org");
  EXPECT_EQ(status(gate(), two), 400);
}

TEST(Gate, ReadingNeedsNoTokenAndActingTheRightOne) {
  const Gate ours = gate();
  EXPECT_EQ(status(ours, request(http::verb::get, "localhost")), 200);
  EXPECT_EQ(status(ours, request(http::verb::head, "localhost")), 200);
  PageRequest act = request(http::verb::post, "localhost");
  EXPECT_EQ(status(ours, act), 401);
  for (const std::string& wrong : {std::string("Bearer "), "Bearer " + Token::make().text(), ours.token().text(),
                                   "Bearer  " + ours.token().text(), "Basic " + ours.token().text(),
                                   "Bearer " + ours.token().text() + "x", "Bearer " + ours.token().text().substr(1)}) {
    act.set(http::field::authorization, wrong);
    EXPECT_EQ(status(ours, act), 401) << wrong;
  }
  for (const char* scheme : {"Bearer ", "bearer ", "BEARER "}) {  // RFC 9110, 11.1: its case says nothing
    act.set(http::field::authorization, scheme + ours.token().text());
    EXPECT_EQ(status(ours, act), 200) << scheme;
  }
}

TEST(Gate, OtherVerbsThanReadingNeedTheTokenToo) {
  for (const http::verb verb : {http::verb::put, http::verb::delete_, http::verb::options, http::verb::unknown})
    EXPECT_EQ(status(gate(), request(verb, "localhost")), 401) << verb;
}

}  // namespace
}  // namespace tenth
