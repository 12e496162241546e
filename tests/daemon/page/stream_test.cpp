#include <gtest/gtest.h>

#include "tests/daemon/page/served.hpp"

namespace tenth {
namespace {

class PageEvents : public testing::Test {
 protected:
  void SetUp() override {
    served.act(engine_add, {{"name", "K1"}, {"file", "f"}, {"text", kTwin}});
    served.act(round_begin, {{"features", {"bore"}}});
  }
  std::unique_ptr<Browser> follow() {
    auto browser = std::make_unique<Browser>(served);
    browser->send("GET /events HTTP/1.1\r\nHost: localhost\r\n\r\n");
    greeting = browser->read_until("\"version\":1}\n\n");
    return browser;
  }
  /// A long event that no entry holds.
  void tell(const std::string& text) {
    served.on_loop([&] { served.page().tell({{"event", "fault"}, {"text", text}}, 0); });
  }
  Served served;
  std::string greeting;  ///< of the last that follows
};

TEST_F(PageEvents, BeginWithHelloAndHaveTheirSeqAsId) {
  const auto page = follow();
  served.act(round_next, Json::object());
  const std::string seq = std::to_string(served.seq());
  const std::string text = page->read_until("\"axis\":\"pin\"");
  EXPECT_TRUE(greeting.starts_with("HTTP/1.1 200 OK\r\n")) << greeting;
  EXPECT_NE(greeting.find("Content-Type: text/event-stream"), std::string::npos) << greeting;
  EXPECT_NE(greeting.find("Content-Security-Policy"), std::string::npos);
  EXPECT_NE(greeting.find("\r\n\r\ndata: {\"event\":\"hello\",\"seq\":"), std::string::npos) << greeting;
  EXPECT_TRUE(text.starts_with("id: " + seq + "\ndata: {")) << text;
}

TEST_F(PageEvents, TellOftenEnoughThatTheDaemonLives) {
  const auto page = follow();
  const auto began = std::chrono::steady_clock::now();
  for (int beats = 0; beats < 5; ++beats) {
    const std::string text = page->read_until("}");
    EXPECT_NE(text.find("\"beat\""), std::string::npos) << text;
    EXPECT_NE(text.find("\"seq\":" + std::to_string(served.seq())), std::string::npos);
  }
  EXPECT_LT(std::chrono::steady_clock::now() - began, std::chrono::seconds(7)) << "a page takes 1.4 s for silence";
}

TEST_F(PageEvents, WhatIsRecordedOfAWireIsNotForThem) {
  const auto page = follow();
  served.on_loop([&] { served.page().tell({{"event", "wire"}, {"gauge", "g"}, {"bytes", "secret"}}, 0); });
  tell("after");
  EXPECT_EQ(page->read_until("after").find("secret"), std::string::npos);
}

TEST_F(PageEvents, OneEventIsOneLineWhateverItSays) {
  const auto page = follow();
  tell("a\r\n\r\ndata: {\"event\":\"forged\"}\r\n\r\nid: 1");
  tell("end");
  const std::string text = page->read_until("end");
  EXPECT_EQ(text.find("\ndata: {\"event\":\"forged\"}"), std::string::npos) << text;
}

TEST_F(PageEvents, OnePageThatDoesNotReadIsCutOffAndTheOthersHearAll) {
  const auto stalled = follow(), reading = follow();
  const std::string much(64 * 1024, 'm');
  // What the kernel holds for the other side comes on top of our own bound.
  for (int n = 0; n < 400; ++n) {
    tell(much + std::to_string(n) + "!");
    reading->read_until("m" + std::to_string(n) + "!");
  }
  const std::string text = stalled->read_until("m399!");
  EXPECT_EQ(text.find("m399!"), std::string::npos) << "it was sent everything, which somebody had to keep";
}

TEST_F(PageEvents, FiftyComeAndGo) {
  for (int n = 0; n < 50; ++n) follow();
  const auto page = follow();
  served.act(round_next, Json::object());
  EXPECT_NE(page->read_until("\"axis\":\"pin\"").find("\"axis\":\"pin\""), std::string::npos);
}

}  // namespace
}  // namespace tenth
