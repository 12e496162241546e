// A gauge behind a TCP port: there, closed, back.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/tcp_gauge.hpp"

namespace acceptance {
namespace {

class Tcp : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    done({"at", "bore"});
  }
  static Words add(const std::string& name, const std::string& port) {
    return {"gauge", "add", name, "--port", port, "--profile", "line", "--unit", "mm"};
  }
  json told(const std::string& state) {
    return watch_->next("gauge", [&](const json& event) { return event["state"] == state; });
  }
};

TEST_F(Tcp, WhatCameBeforeItClosedIsRead) {
  TcpGauge server;
  done(add("g", server.name()));
  server.accepted();
  server.send("70.010\r\n70.011\r\n70.0");
  server.hang_up();
  EXPECT_EQ(watch_->next("reading")["text"], "70.010");
  const json reading = watch_->next("reading");
  EXPECT_EQ(reading["text"], "70.011");
  EXPECT_EQ(reading["source"], "gauge");
  told("gone");
  const json fault = watch_->next("fault");
  EXPECT_EQ(fault["why"], "cut_short");
  EXPECT_EQ(fault["raw"], "70.0");
}

TEST_F(Tcp, IsOpenWithinASecondOfTheServerListening) {
  auto server = std::make_unique<TcpGauge>();
  const int port = server->port();
  done(add("g", server->name()));
  server->accepted();
  told("open");
  server.reset();
  told("gone");
  EXPECT_EQ(pick(asked({"status"})["gauges"], {{"name", "g"}})["state"], "gone");
  const auto listening = std::chrono::steady_clock::now();
  server = std::make_unique<TcpGauge>(port);
  told("open");
  const auto waited = std::chrono::steady_clock::now() - listening;
  EXPECT_LT(std::chrono::duration_cast<Millis>(waited).count(), 1500) << "a second, and room for a loaded machine";
  server->accepted();
  server->send("70.010\r");
  EXPECT_EQ(watch_->next("reading")["state"], "kept");
}

TEST_F(Tcp, AConnectionThatEndsIsMadeAgain) {
  TcpGauge server;
  done(add("g", server.name()));
  for (int turn = 0; turn < 3; ++turn) {
    server.accepted();
    told("open");
    server.send("70.010\r");
    EXPECT_EQ(watch_->next("reading")["state"], "kept");
    server.hang_up();
    told("gone");
  }
}

TEST_F(Tcp, NobodyThereIsGoneWithTheReason) {
  int port = 0;
  {
    const TcpGauge server;
    port = server.port();
  }
  done(add("g", "tcp:127.0.0.1:" + std::to_string(port)));
  const json shown = pick(asked({"status"})["gauges"], {{"name", "g"}});
  EXPECT_EQ(shown["state"], "gone");
  EXPECT_TRUE(shown["why"].is_string()) << shown;
  refused(add("h", "tcp:127.0.0.1:" + std::to_string(port)), 4);
}

TEST_F(Tcp, WordsThatAreNoPort) {
  for (const char* port : {"tcp:", "tcp:host", "tcp::4001", "tcp:127.0.0.1:0", "tcp:127.0.0.1:70000", "tcp:h:x",
                           "usb:", "usb:@", "keys:", "foo:bar"}) {
    refused(add("g", port), 2);
  }
}

TEST_F(Tcp, PortsByIdentityThatAreNotThereAreGone) {
  for (const char* port : {"usb:A-0042", "usb:@9-9"}) {
    done(add("g", port));
    EXPECT_EQ(pick(asked({"status"})["gauges"], {{"name", "g"}})["state"], "gone") << port;
    refused(add("h", port), 4);
    done({"gauge", "drop", "g"});
  }
}

}  // namespace
}  // namespace acceptance
