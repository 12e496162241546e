// Abuse of the socket: the daemon lives on, its memory stays bounded, other clients are served.
#include <fcntl.h>
#include <poll.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <csignal>
#include <fstream>
#include <list>
#include <thread>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

// A client that knows nothing of the protocol.
class RawClient {
 public:
  explicit RawClient(const std::filesystem::path& path) : fd_(::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
    std::signal(SIGPIPE, SIG_IGN);
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    path.string().copy(address.sun_path, sizeof address.sun_path - 1);
    connected_ = connect(fd_, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0;
    fcntl(fd_, F_SETFL, O_NONBLOCK);
  }
  ~RawClient() { close(fd_); }
  RawClient(const RawClient&) = delete;
  RawClient& operator=(const RawClient&) = delete;

  bool connected() const { return connected_; }
  // How many bytes went out before the other side cut the connection or took no more for `patience`.
  std::size_t send(std::string_view bytes, Millis patience = Millis(1000)) {
    std::size_t sent = 0;
    while (sent < bytes.size()) {
      const ssize_t n = ::send(fd_, bytes.data() + sent, bytes.size() - sent, MSG_NOSIGNAL);
      if (n > 0) {
        sent += static_cast<std::size_t>(n);
      } else if (errno != EAGAIN || !ready(POLLOUT, patience)) {
        break;
      }
    }
    return sent;
  }
  // What the other side answers until it cuts the connection (then `cut` is true), or until the deadline.
  std::string hear(Deadline until, bool stop_at_line = true) {
    std::string heard;
    while (!cut && std::chrono::steady_clock::now() < until &&
           !(stop_at_line && heard.find('\n') != std::string::npos)) {
      if (!ready(POLLIN, Millis(20))) continue;
      char bytes[4096];
      const ssize_t n = recv(fd_, bytes, sizeof bytes, 0);
      if (n > 0) heard.append(bytes, static_cast<std::size_t>(n));
      if (n == 0 || (n < 0 && errno != EAGAIN)) cut = true;
    }
    return heard;
  }
  bool cut = false;

 private:
  bool ready(short what, Millis wait) const {
    pollfd one{fd_, what, 0};
    return poll(&one, 1, static_cast<int>(wait.count())) > 0;
  }
  int fd_;
  bool connected_ = false;
};

class Socket : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    gauge("g", {"--unit", "mm"});
  }
  void lives_on() {
    ASSERT_TRUE(daemon_.running());
    EXPECT_EQ(press_at({"bore"}, "g", line("70.010"))["state"], "kept");
  }
  long memory_kib() const {
    std::ifstream status("/proc/" + std::to_string(daemon_.pid()) + "/status");
    for (std::string word; status >> word;) {
      if (word != "VmRSS:") continue;
      long kib = 0;
      status >> kib;
      return kib;
    }
    return 0;
  }
};

TEST_F(Socket, GarbageIsAnsweredOrCut) {
  for (const std::string& text :
       {std::string("\0\xff\x80{{{\n", 7), std::string("{}\n"), std::string("[]\n"), std::string("null\n"),
        std::string("1e999\n"), std::string("{\"jsonrpc\":\"2.0\",\"method\":5,\"id\":{}}\n"), std::string("\n\n\n"),
        std::string("{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"no such method\",\"params\":[[],{}]}\n"),
        std::string("GET / HTTP/1.1\r\nHost: localhost\r\n\r\n"), std::string("\"\\ud800\"\n")}) {
    RawClient client(daemon_.socket());
    ASSERT_TRUE(client.connected());
    client.send(text);
    if (text.find_first_not_of('\n') == std::string::npos) continue;
    const std::string heard = client.hear(in(std::chrono::seconds(2)));
    EXPECT_TRUE(client.cut || heard.find("error") != std::string::npos) << text << heard;
  }
  lives_on();
}

TEST_F(Socket, AHugeLineIsCutAndNotGathered) {
  const long before = memory_kib();
  RawClient client(daemon_.socket());
  const std::string megabyte(1 << 20, 'x');
  std::size_t sent = 0;
  for (int i = 0; i < 64; ++i) {
    const std::size_t now = client.send(megabyte);
    sent += now;
    if (now < megabyte.size()) break;
  }
  EXPECT_LT(sent, 8U << 20U) << "no end to what it takes in one line";
  const std::string heard = client.hear(in(std::chrono::seconds(2)), false);
  EXPECT_TRUE(client.cut) << heard;
  EXPECT_LT(memory_kib() - before, 16 * 1024);
  lives_on();
}

TEST_F(Socket, DepthIsBounded) {
  for (const int depth : {33, 1000, 200000}) {
    RawClient client(daemon_.socket());
    client.send("{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"hello\",\"params\":" +
                std::string(static_cast<std::size_t>(depth), '[') + std::string(static_cast<std::size_t>(depth), ']') +
                "}\n");
    const std::string heard = client.hear(in(std::chrono::seconds(2)));
    EXPECT_TRUE(client.cut || heard.find("error") != std::string::npos) << depth << heard;
  }
  lives_on();
}

TEST_F(Socket, ASilentClientIsCutAfterTenSeconds) {
  RawClient client(daemon_.socket());
  RawClient slow(daemon_.socket());
  slow.send("{\"jsonrpc\":");
  client.hear(in(std::chrono::seconds(13)));
  EXPECT_TRUE(client.cut);
  slow.hear(in(std::chrono::seconds(2)));
  EXPECT_TRUE(slow.cut);
  lives_on();
}

TEST_F(Socket, SeventyClientsLeaveTheDaemonWell) {
  {
    std::list<RawClient> clients;
    for (int i = 0; i < 70; ++i) clients.emplace_back(daemon_.socket());
    const Ran ran = run({tenth_path(), "status"}, {}, Millis(8000));
    EXPECT_NE(ran.status, -1) << "hangs while the table is full";
    EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), ran.status == 0 ? 0 : 1) << ran.err;
    // Those past the sixty-fourth (the watcher of this test is one) are told or cut at once, not left waiting.
    EXPECT_TRUE(clients.back().hear(in(std::chrono::seconds(2))).find("error") != std::string::npos ||
                clients.back().cut);
    EXPECT_EQ(press("g", line("70.010")).value("gauge", ""), "g");  // gauges do not care
  }
  const Deadline until = in(std::chrono::seconds(3));
  while (tenth({"status"}).status != 0) ASSERT_LT(std::chrono::steady_clock::now(), until);
  lives_on();
}

TEST_F(Socket, AClientThatGoesInTheMiddleHarmsNobody) {
  for (int i = 0; i < 20; ++i) {
    RawClient client(daemon_.socket());
    client.send("{\"jsonrpc\":\"2.0\",\"id\":1,\"meth");
  }
  for (int i = 0; i < 5; ++i) {
    Child watcher({tenth_path(), "--json", "watch", "--since", "0"});
    watcher.line(in(std::chrono::seconds(2)));
    watcher.signal(SIGKILL);
  }
  lives_on();
}

TEST_F(Socket, AWatcherThatDoesNotReadIsCutOff) {
  // Every move of the place tells where it is: long words there make much to read.
  std::string spec = single;
  spec.replace(spec.find("kind = \"inside\""), 15,
               "count = 200\nkind = \"inside\"\nwhere = \"" + std::string(60000, 'w') + "\"");
  engine(spec, "long");
  Watch slow;
  const pid_t stopped = slow.child().pid();
  kill(stopped, SIGSTOP);
  const long before = memory_kib();
  done({"round", "bore"});
  for (int i = 0; i < 200; ++i) ASSERT_EQ(press("g", line("70.010"))["state"], "kept");
  done({"round", "bore", "--again"});
  for (int i = 0; i < 200; ++i) press("g", line("70.010"));
  EXPECT_LT(memory_kib() - before, 20 * 1024) << "24 MB of events were told";
  kill(stopped, SIGCONT);
  const json lost = slow.next("lost");
  EXPECT_TRUE(lost["seq"].is_number()) << lost;
  EXPECT_TRUE(slow.child().join(in(std::chrono::seconds(3))));
  done({"engine", "use", "E1"});
  lives_on();
}

}  // namespace
}  // namespace acceptance
