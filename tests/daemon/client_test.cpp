// Callers on the socket that hang up while their call takes its time.
#include "daemon/client.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/file.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/local/connect_pair.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/write.hpp>

#include "daemon/methods.hpp"
#include "daemon/ports/sessions.hpp"
#include "tests/daemon/hand_clock.hpp"
#include "tests/daemon/ports/cable.hpp"
#include "tests/daemon/workbench.hpp"
#include "tests/support/pty.hpp"

namespace tenth {
namespace {

namespace asio = boost::asio;
using std::chrono::milliseconds;

const char* const kStream =
    "format = \"tenth-profile-1\"\nspeaks = \"line\"\n[value]\npattern = '(?P<number>[-0-9.]+)'\n"
    "[trigger]\nby = \"continuous\"\n";

class CallerTest : public testing::Test {
 protected:
  CallerTest()
      : desk_({loop_.get_executor(),
               [this](const auto& bodies, auto stored) { append(bodies.size(), std::move(stored)); },
               {},
               "",
               &clock_,
               {},
               {"tester", 0, "daemon"},
               [] { return std::uint64_t{1}; }}),
        methods_(desk_, "/nowhere"),
        sessions_(loop_.get_executor(), desk_,
                  [this](const auto&, const std::string&, const Profile&) -> Result<std::unique_ptr<drivers::Link>> {
                    return std::make_unique<CableLink>(cable_);
                  }) {
    desk_.listen([](const Json&, std::int64_t) {},
                 [this](const Entry& entry) { sessions_.follow(entry, desk_.view().bench); });
    Client::Socket daemons(loop_);
    asio::local::connect_pair(caller_, daemons);
    client_ = std::make_shared<Client>(std::move(daemons), methods_, Actor{"tester", 1000, "socket"}, [](Client&) {});
    client_->start();
    say(1, "hello", {{"version", kWireVersion}});
  }
  ~CallerTest() override {
    client_->close();
    sessions_.stop_all();
    run_for(milliseconds(0));
  }
  void append(std::size_t count, StoreThread::Stored stored) {
    asio::post(loop_, [stored = std::move(stored), count] { stored(std::vector<Digest>(count)); });
  }
  void run_for(milliseconds time) {
    loop_.restart();
    loop_.run_for(time);
  }
  void say(int id, const std::string& method, const Json& params) {
    asio::write(caller_, asio::buffer(request_line(id, method, params) + "\n"));
    run_for(milliseconds(30));
  }
  /// A gauge that streams, and a place to measure at.
  void stream() {
    say(2, "engine.add", {{"name", "K1"}, {"file", "f"}, {"text", kTwin}});
    say(3, "at", {{"words", {"bore", "1", "top", "pin"}}});
    say(4, "gauge.add",
        {{"name", "probe"},
         {"port", "/dev/probe"},
         {"profile", "own"},
         {"profile_text", kStream},
         {"gauge_unit", "mm"}});
  }
  /// Five passes through 83.010 mm, 20 values a second.
  void rock() {
    for (int i = 0; i < 100; ++i) {
      const int phase = i % 20 - 10;
      char text[16];
      std::snprintf(text, sizeof text, "%.3f\r", 83.010 + 0.004 * phase * phase);
      clock_.pass(50);
      cable_.send(text);
      run_for(milliseconds(1));
    }
  }
  std::size_t readings() const { return desk_.view().bench.engines.at("K1").readings.size(); }

  asio::io_context loop_;
  HandClock clock_;
  Cable cable_{loop_};
  Desk desk_;
  Methods methods_;
  Sessions sessions_;
  Client::Socket caller_{loop_};
  std::shared_ptr<Client> client_;
};

TEST_F(CallerTest, WhoRocksAndStaysHasAReading) {
  stream();
  say(5, "take", {{"turning_s", 1}});
  rock();
  run_for(milliseconds(1100));
  EXPECT_EQ(readings(), 1U);
}

TEST_F(CallerTest, WhoHangsUpWhileRockingMakesNoReading) {
  stream();
  say(5, "take", {{"turning_s", 1}});
  rock();
  caller_.close();
  run_for(milliseconds(1100));
  EXPECT_EQ(readings(), 0U);
}

TEST_F(CallerTest, WhoHasOnlySaidAllStillWaitsForTheReading) {
  stream();
  say(5, "take", {{"turning_s", 1}});
  rock();
  caller_.shutdown(Client::Socket::shutdown_send);
  run_for(milliseconds(1100));
  EXPECT_EQ(readings(), 1U);
}

TEST_F(CallerTest, WhoHangsUpWhileListeningGivesThePortBack) {
  const test::Pty gauge;
  const int other = ::open(gauge.path().c_str(), O_RDWR | O_NOCTTY | O_CLOEXEC);
  ASSERT_GE(other, 0);
  say(2, "gauge.listen", {{"port", gauge.path()}, {"for_s", 600}});
  EXPECT_NE(::flock(other, LOCK_EX | LOCK_NB), 0) << "the daemon listens";
  caller_.close();
  run_for(milliseconds(500));
  EXPECT_EQ(::flock(other, LOCK_EX | LOCK_NB), 0);
  ::close(other);
}

}  // namespace
}  // namespace tenth
