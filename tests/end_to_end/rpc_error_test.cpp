// The codes that JSON-RPC 2.0 itself gives to what is malformed, and its silence on notifications.
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include "tests/end_to_end/bench.hpp"

namespace acceptance {
namespace {

class RpcError : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    socket_ = socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    daemon_.socket().string().copy(address.sun_path, sizeof address.sun_path - 1);
    ASSERT_EQ(connect(socket_, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
    ask(R"({"jsonrpc":"2.0","id":1,"method":"hello","params":{"version":1}})");
  }
  void TearDown() override { close(socket_); }
  void say(const std::string& request) const {
    ASSERT_EQ(send(socket_, (request + "\n").data(), request.size() + 1, MSG_NOSIGNAL),
              static_cast<ssize_t>(request.size() + 1));
  }
  json ask(const std::string& request) const {
    say(request);
    std::string answer;
    for (char c = 0; read(socket_, &c, 1) == 1 && c != '\n';) answer += c;
    return json::parse(answer, nullptr, false);
  }
  int socket_ = -1;
};

TEST_F(RpcError, AMethodThatIsNotThere) {
  EXPECT_EQ(ask(R"({"jsonrpc":"2.0","id":2,"method":"nope"})")["error"]["code"], -32601);
}

TEST_F(RpcError, ANotificationIsNotAnswered) {
  say(R"({"jsonrpc":"2.0","method":"status"})");
  EXPECT_EQ(ask(R"({"jsonrpc":"2.0","id":"after","method":"status"})")["id"], "after");
}

TEST_F(RpcError, AnIdIsANumberTextOrNull) {
  EXPECT_EQ(ask(R"({"jsonrpc":"2.0","id":{},"method":"status"})")["error"]["code"], -32600);
}

}  // namespace
}  // namespace acceptance
