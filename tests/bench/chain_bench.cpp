// The whole way of a reading: from the last byte on a pseudo-terminal to the event on a watcher's socket, held against
// a bare insert on the same disk in the same run.
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <boost/asio/io_context.hpp>
#include <filesystem>
#include <thread>

#include "daemon/acts/acts.hpp"
#include "daemon/desk.hpp"
#include "daemon/opening.hpp"
#include "daemon/ports/sessions.hpp"
#include "daemon/server.hpp"
#include "drivers/link/open_port.hpp"
#include "tests/bench/bare.hpp"
#include "tests/bench/gauge.hpp"
#include "tests/bench/samples.hpp"

namespace tenth::bench {
namespace {

namespace fs = std::filesystem;

const char* const kSpec =
    "title = \"bench\"\nunit = \"mm\"\n[layout]\ncylinders = 8\n[feature.bore]\ncount = \"cylinders\"\nkind = "
    "\"inside\"\n"
    "limits = [83.000, 83.035]\nlevels = [\"top\", \"middle\", \"bottom\"]\naxes = [\"thrust\", \"pin\"]\nout_of_round "
    "= 0.010\n"
    "[feature.piston]\ncount = \"cylinders\"\nkind = \"outside\"\nlimits = [82.940, 82.960]\n"
    "[fit.piston_clearance]\ninside = \"bore\"\noutside = \"piston\"\nlimits = [0.040, 0.095]\n";

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

/// A daemon in this process: the same parts as `tenthd` runs.
class Daemon {
 public:
  explicit Daemon(const fs::path& folder)
      : Daemon(folder, *open_ledger(folder, false, clock(), {"bench", 0, "daemon"})) {}
  ~Daemon() {
    boost::asio::post(loop_, [this] { loop_.stop(); });
    thread_.join();
  }
  Daemon(const Daemon&) = delete;
  Daemon& operator=(const Daemon&) = delete;

  void prepare(const Gauge& gauge) {
    act(engine_add, {{"name", "B"}, {"file", "bench.toml"}, {"text", kSpec}});
    act(gauge_add, {{"name", "g"}, {"port", gauge.path()}, {"profile", "line"}, {"gauge_unit", "mm"}});
    act(at, {{"words", {"bore/1/top/pin"}}});
    thread_ = std::thread([this] { loop_.run(); });
  }

 private:
  Daemon(const fs::path& folder, Opened opened)
      : store_(std::move(opened.ledger), loop_.get_executor()),
        desk_({loop_.get_executor(),
               [this](auto bodies, auto stored) { store_.append(std::move(bodies), std::move(stored)); },
               std::move(opened.bench),
               opened.head_hash,
               &clock(),
               {},
               {"bench", 0, "daemon"},
               [] { return std::uint64_t{0}; }}),
        methods_(desk_, folder / "ledger.db"),
        sessions_(loop_.get_executor(), desk_, drivers::open_port),
        server_(std::move(*Server::listen(loop_.get_executor(), methods_, folder / "s"))) {
    desk_.listen([this](const Json& event, std::int64_t seq) { server_->tell(event, seq); },
                 [this](const Entry& entry) { sessions_.follow(entry, desk_.view().bench); });
    server_->start();
  }
  static const Clock& clock() {
    static const SystemClock system;
    return system;
  }
  void act(Desk::Act what, const Json& params) {
    bool answered = false;
    desk_.command({"bench", 0, "socket"}, what, params, "bench", [&](const Result<Json>& answer) {
      must(answer.has_value());
      answered = true;
    });
    while (!answered) loop_.run_one();
  }

  boost::asio::io_context loop_{1};
  StoreThread store_;
  Desk desk_;
  Methods methods_;
  Sessions sessions_;
  std::unique_ptr<Server> server_;
  std::thread thread_;
};

void whole_chain(benchmark::State& state) {
  const Folder folder;
  const Gauge gauge;
  Daemon daemon(folder.path());
  daemon.prepare(gauge);
  Watcher watcher(folder.path() / "s");
  measure(state, "whole_chain/1", 1, [&] {
    gauge.press();
    watcher.wait_for("\"event\":\"reading\"");
  });
}

BENCHMARK(whole_chain)->UseRealTime();

}  // namespace
}  // namespace tenth::bench
