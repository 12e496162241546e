#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <sstream>

#include "tests/daemon/page/served.hpp"

namespace tenth {
namespace {

class Page : public testing::Test {
 protected:
  void SetUp() override {
    served.act(engine_add, {{"name", "K1"}, {"file", "f"}, {"text", kTwin}});
    served.act(round_begin, {{"features", {"bore"}}});
  }
  http::response<http::string_body> ask(const http::request<http::string_body>& request) {
    return Browser(served).ask(request);
  }
  Served served;
};

TEST_F(Page, IsServedWithEveryHeaderThatKeepsOthersOut) {
  for (const char* path : {"/", "/page.css", "/page.js", "/station.js", "/icon.svg", "/bench", "/nowhere"}) {
    const auto answer = ask(get(path));
    EXPECT_EQ(answer.result_int(), std::string(path) == "/nowhere" ? 404 : 200) << path;
    const std::string policy = answer["Content-Security-Policy"];
    EXPECT_TRUE(policy.starts_with(
        "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self';"))
        << policy;
    EXPECT_EQ(policy.find("unsafe"), std::string::npos);
    EXPECT_EQ(answer["X-Content-Type-Options"], "nosniff");
    EXPECT_EQ(answer["Referrer-Policy"], "no-referrer");
    EXPECT_EQ(answer[http::field::cache_control], "no-store");
    EXPECT_EQ(answer.count(http::field::access_control_allow_origin), 0);
    EXPECT_GT(answer.body().size(), 10) << path;
  }
}

TEST_F(Page, NamesNothingOutsideAndHasNoScriptOfItsOwnInTheMarkup) {
  const std::string html = ask(get("/")).body();
  for (const char* path : {"/", "/page.css", "/page.js", "/acts.js", "/block.js", "/elements.js", "/last.js",
                           "/marks.js", "/notices.js", "/plan.js", "/station.js"}) {
    const std::string text = ask(get(path)).body();
    EXPECT_EQ(text.find("https://"), std::string::npos) << path;
    for (const char* way :
         {"innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(", "setAttribute('style'"})
      EXPECT_EQ(text.find(way), std::string::npos) << path << ": " << way;
  }
  EXPECT_EQ(html.find("style="), std::string::npos);
  EXPECT_EQ(html.find("onclick"), std::string::npos);
}

TEST_F(Page, HeadIsGetWithoutTheBody) {
  for (const char* path : {"/", "/bench", "/events"}) {
    auto request = get(path);
    request.method(http::verb::head);
    const auto answer = ask(request);
    EXPECT_EQ(answer.result_int(), 200) << path;
    EXPECT_EQ(answer.body(), "") << path;
  }
}

TEST_F(Page, TheBenchIsWhatTheQueryAnswers) {
  const auto answer = ask(get("/bench"));
  EXPECT_EQ(answer[http::field::content_type], "application/json");
  const Json json = Json::parse(answer.body());
  EXPECT_EQ(json["engine"], "K1");
  EXPECT_EQ(json["places"][0]["words"], "bore 1 top thrust");
  EXPECT_EQ(json["seq"], served.seq());
}

TEST_F(Page, TheBenchIsMadeAnewWhenSomethingHappened) {
  Browser browser(served);
  EXPECT_EQ(Json::parse(browser.ask(get("/bench")).body())["places"][0]["words"], "bore 1 top thrust");
  served.act(round_next, Json::object());
  EXPECT_EQ(Json::parse(browser.ask(get("/bench")).body())["places"][0]["words"], "bore 1 top pin");
}

TEST_F(Page, ReadingChangesNothing) {
  const auto seq = served.seq();
  for (const char* path : {"/", "/bench", "/act/next", "/act/undo", "/bench?act=next", "/act/next?token=x"}) {
    ask(get(path));
    auto head = get(path);
    head.method(http::verb::head);
    ask(head);
  }
  EXPECT_EQ(served.seq(), seq);
}

TEST_F(Page, ActingNeedsTheTokenAndMovesOn) {
  const auto seq = served.seq();
  EXPECT_EQ(ask(post("/act/next", "")).result_int(), 401);
  EXPECT_EQ(ask(post("/act/next", Token::make().text())).result_int(), 401);
  EXPECT_EQ(ask(post("/act/next?token=" + served.token(), "")).result_int(), 401);
  EXPECT_EQ(served.seq(), seq);
  const auto done = ask(post("/act/next", served.token()));
  EXPECT_EQ(done.result_int(), 200);
  EXPECT_EQ(Json::parse(done.body())["axis"], "pin");
  EXPECT_EQ(served.place(), "\"bore 1 top pin\"");
  EXPECT_EQ(ask(post("/act/back", served.token())).result_int(), 200);
  EXPECT_EQ(served.place(), "\"bore 1 top thrust\"");
}

TEST_F(Page, ARefusedActSaysWhatToDo) {
  const auto refused = ask(post("/act/undo", served.token()));
  EXPECT_EQ(refused.result_int(), 409);
  EXPECT_EQ(Json::parse(refused.body())["code"], "no_reading");
  EXPECT_EQ(ask(post("/act/undo", served.token(), R"({"gauge":7})")).result_int(), 400);
}

TEST_F(Page, WhoLeavesBeforeARockingIsOverTakesNothing) {
  const auto answer = [&](bool leaves) {
    Browser browser(served);
    auto request = post("/act/take", served.token(), R"({"turning_s":1})");
    request.set(http::field::host, "localhost");
    request.prepare_payload();
    std::ostringstream text;
    text << request;
    browser.send(text.str());
    if (leaves) browser.socket().shutdown(Tcp::socket::shutdown_send);
    return Json::parse(browser.receive().body())["code"];
  };
  EXPECT_EQ(answer(false), "not_live") << "there is no such gauge";
  EXPECT_EQ(answer(true), "hung_up");
}

TEST_F(Page, OnlyWhatAPedalMayDoCanBeDone) {
  const auto seq = served.seq();
  for (const char* path : {"/act/engine.add", "/act/void", "/act/", "/act/status", "/act/next/", "/act/page"})
    EXPECT_EQ(ask(post(path, served.token())).result_int(), 404) << path;
  EXPECT_EQ(ask(post("/bench", served.token())).result_int(), 405);
  auto request = post("/bench", served.token());
  request.method(http::verb::put);
  EXPECT_EQ(ask(request).result_int(), 405);
  EXPECT_EQ(served.seq(), seq);
}

TEST_F(Page, AFormOfAnotherSiteCannotAct) {
  auto form = post("/act/next", served.token());
  form.set(http::field::content_type, "text/plain");
  EXPECT_EQ(ask(form).result_int(), 415);
  auto foreign = post("/act/next", served.token());
  foreign.set(http::field::origin, "http://example.org");
  EXPECT_EQ(ask(foreign).result_int(), 403);
}

TEST_F(Page, ANameThatIsPointedHereIsNotServed) {
  for (const char* path : {"/", "/bench", "/events"}) {
    auto request = get(path);
    request.set(http::field::host, "rebound.example.org");
    const auto answer = ask(request);
    EXPECT_EQ(answer.result_int(), 403) << path;
    EXPECT_EQ(answer.body().find("K1"), std::string::npos);
  }
}

TEST_F(Page, ParametersAreOneObjectOfOurs) {
  const auto seq = served.seq();
  for (const char* body : {"", "[]", "3", "{", "null", "{\"gauge\":\"a\",\"gauge\":\"b\"}"})
    EXPECT_EQ(ask(post("/act/next", served.token(), body)).result_int(), 400) << body;
  EXPECT_EQ(served.seq(), seq);
}

TEST_F(Page, TooMuchIsRefused) {
  EXPECT_EQ(ask(post("/act/next", served.token(), std::string(1025, ' '))).result_int(), 413);
  auto request = get("/");
  request.set("X-Long", std::string(9000, 'x'));
  EXPECT_EQ(ask(request).result_int(), 431);
  EXPECT_EQ(ask(get("/" + std::string(9000, 'x'))).result_int(), 431);
}

using Browsers = std::vector<std::unique_ptr<Browser>>;

const char* const kFollow = "GET /events HTTP/1.1\r\nHost: localhost\r\n\r\n";

TEST_F(Page, ConnectionsAreBounded) {
  Browsers browsers;
  for (std::size_t n = 0; n < PageServer::kMostConnections; ++n) {
    browsers.push_back(std::make_unique<Browser>(served));
    browsers.back()->send(kFollow);
    ASSERT_TRUE(browsers.back()->read_until("\n\n").ends_with("\n\n"));
  }
  EXPECT_EQ(Browser(served).receive().result_int(), 503);
  browsers.pop_back();
  for (int tries = 0; tries < 500; ++tries) {
    if (ask(get("/icon.svg")).result_int() == 200) return;
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
  FAIL() << "a place that became free was not given again";
}

TEST_F(Page, ManyThatSayNothingKeepNobodyOut) {
  Browser following(served);
  following.send(kFollow);
  following.read_until("hello");
  Browsers silent;
  for (int n = 0; n < 200; ++n) {
    silent.push_back(std::make_unique<Browser>(served));
    if (n % 20 != 0) continue;
    ASSERT_EQ(ask(get("/icon.svg")).result_int(), 200) << n;
  }
  EXPECT_EQ(silent.front()->receive().result_int(), 0);
  EXPECT_EQ(silent.back()->ask(get("/icon.svg")).result_int(), 200);
  served.act(round_next, Json::object());
  EXPECT_TRUE(following.read_until("\"axis\":\"pin\"").ends_with("\"pin\""));
}

/// A browser keeps connections that it may use again: they give way too, the one that was used last the last.
TEST_F(Page, WhoWaitsLongestForARequestGivesWay) {
  Browsers waiting;
  for (std::size_t n = 0; n < PageServer::kMostConnections; ++n) {
    waiting.push_back(std::make_unique<Browser>(served));
    ASSERT_EQ(waiting.back()->ask(get("/icon.svg")).result_int(), 200);
  }
  ASSERT_EQ(waiting.front()->ask(get("/icon.svg")).result_int(), 200);
  Browser other(served);
  ASSERT_EQ(other.ask(get("/icon.svg")).result_int(), 200);
  const auto began = std::chrono::steady_clock::now();
  EXPECT_EQ(waiting[1]->receive().result_int(), 0);
  EXPECT_LT(std::chrono::steady_clock::now() - began, std::chrono::seconds(10));  // closed, not left to its 60 s
  EXPECT_EQ(waiting.front()->ask(get("/icon.svg")).result_int(), 200);
}

TEST_F(Page, AllEventsOfOneEntryAreTold) {
  served.act(at, {{"words", {"piston/1"}}});
  const auto before = served.seq();
  for (int n = 0; n < 2; ++n) served.act(enter, {{"value", "82.950"}, {"again", "82.950"}});
  Browser following(served);
  following.send(kFollow);
  following.read_until("hello");
  const Json run = {{"first", before + 1}, {"last", served.seq()}, {"reason", "dirt"}};
  served.act(void_readings, run);
  const std::string change = "\"event\":\"change\"";
  ASSERT_TRUE(following.read_until(change).ends_with(change));
  EXPECT_NE(following.read_until("\"beat\"").find(change), std::string::npos);
}

TEST_F(Page, WhoSaysNothingIsSentAwayAfterTenSeconds) {
  Browser silent(served), slow(served);
  slow.send("GET / HTTP/1.1\r\nHost: loc");
  const auto began = std::chrono::steady_clock::now();
  EXPECT_EQ(silent.receive().result_int(), 0);
  EXPECT_EQ(slow.receive().result_int(), 0);
  const auto took = std::chrono::steady_clock::now() - began;
  EXPECT_GT(took, std::chrono::seconds(9));
  EXPECT_LT(took, std::chrono::seconds(30));
}

TEST_F(Page, OneConnectionTakesManyRequests) {
  Browser browser(served);
  for (int n = 0; n < 50; ++n) ASSERT_EQ(browser.ask(get("/bench")).result_int(), 200) << n;
}

TEST_F(Page, NamesThatAreMarkupStayText) {
  const std::string hostile = "</script><img src=x onerror=alert(1)>\"'&\x01";
  served.act(engine_add, {{"name", hostile}, {"file", "f"}, {"text", kTwin}});
  served.act(engine_use, {{"name", hostile}});
  const auto answer = ask(get("/bench"));
  EXPECT_EQ(answer[http::field::content_type], "application/json");
  EXPECT_EQ(Json::parse(answer.body())["engine"], hostile);
}

/// Whatever is sent, the next one who asks is answered, and nothing is changed.
TEST_F(Page, SurvivesRandomBytes) {
  const auto seq = served.seq();
  const bool held = rc::check("random bytes", [this] {
    const auto lines = *rc::gen::container<std::vector<std::string>>(rc::gen::oneOf(
        rc::gen::element<std::string>("GET / HTTP/1.1", "POST /act/next HTTP/1.1", "Host: localhost", "Host: x",
                                      "Content-Length: 5", "", "Content-Length: 99999999999999999999",
                                      "Transfer-Encoding: chunked", "ffffffff", "0", "-1", "Origin: null",
                                      "Expect: 100-continue", "Connection: upgrade", "Authorization: Bearer ", "{}"),
        rc::gen::string<std::string>()));
    std::string bytes;
    for (const std::string& line : lines) bytes += line + "\r\n";
    Browser browser(served);
    browser.send(bytes);
    boost::system::error_code ignored;
    browser.socket().shutdown(Tcp::socket::shutdown_send, ignored);
    browser.receive();
    RC_ASSERT(Browser(served).ask(get("/icon.svg")).result_int() == 200U);
  });
  EXPECT_TRUE(held);
  EXPECT_EQ(served.seq(), seq);
}

TEST(PageBeyondLoopback, WantsATokenFile) {
  boost::asio::io_context loop;
  HandClock clock;
  Desk desk({loop.get_executor(),
             [](auto, auto) {},
             {},
             "",
             &clock,
             {},
             {"tester", 0, "daemon"},
             [] { return std::uint64_t{1}; }});
  Methods methods(desk, "/nowhere");
  const auto refused = PageServer::listen(loop.get_executor(), methods,
                                          {Tcp::endpoint(boost::asio::ip::address_v4::any(), 0), {}, ""}, {});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, "token_file");
  EXPECT_EQ(refused.error().exit, Exit::refused);
}

TEST(PageAddressTaken, IsRefused) {
  Served served;
  boost::asio::io_context loop;
  HandClock clock;
  Desk desk({loop.get_executor(),
             [](auto, auto) {},
             {},
             "",
             &clock,
             {},
             {"tester", 0, "daemon"},
             [] { return std::uint64_t{1}; }});
  Methods methods(desk, "/nowhere");
  const auto refused = PageServer::listen(loop.get_executor(), methods, {served.endpoint(), {}, ""}, {});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().exit, Exit::refused);
}

}  // namespace
}  // namespace tenth
