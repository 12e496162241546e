// The whole way of a reading: from the last byte on a pseudo-terminal to the event on a watcher's socket, held against
// a bare insert on the same disk in the same run.
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <filesystem>

#include "tests/bench/samples.hpp"
#include "tests/bench/whole_daemon.hpp"

namespace tenth::bench {
namespace {

namespace fs = std::filesystem;

/// A watcher as `tenth watch` is one.
class Watcher {
 public:
  explicit Watcher(const fs::path& path) : socket_(::socket(AF_UNIX, SOCK_STREAM, 0)) {
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    path.string().copy(address.sun_path, sizeof address.sun_path - 1);
    const auto* const generic = static_cast<const sockaddr*>(static_cast<const void*>(&address));
    must(::connect(socket_, generic, sizeof address) == 0);
    send(request_line(1, "hello", {{"version", kWireVersion}}));
    send(request_line(2, "watch", Json::object()));
    wait_for("\"event\":\"hello\"");
  }
  ~Watcher() { ::close(socket_); }
  Watcher(const Watcher&) = delete;
  Watcher& operator=(const Watcher&) = delete;
  void wait_for(const std::string& word) {
    while (text_.find(word) == std::string::npos) {
      char block[8192];
      const auto count = ::read(socket_, block, sizeof block);
      must(count > 0);
      text_.append(block, static_cast<std::size_t>(count));
    }
    text_.clear();
  }

 private:
  void send(const std::string& line) const {
    const std::string whole = line + "\n";
    must(::write(socket_, whole.data(), whole.size()) == static_cast<ssize_t>(whole.size()));
  }
  int socket_;
  std::string text_;
};

void whole_chain(benchmark::State& state) {
  const Folder folder;
  const Gauge gauge;
  Daemon daemon(folder.path());
  daemon.prepare({&gauge, 1});
  Watcher watcher(folder.path() / "s");
  measure(state, "whole_chain/1", 1, [&] {
    gauge.press();
    watcher.wait_for("\"event\":\"reading\"");
  });
}

BENCHMARK(whole_chain)->UseRealTime();

}  // namespace
}  // namespace tenth::bench
