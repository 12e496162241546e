#pragma once

#include <boost/asio/io_context.hpp>
#include <filesystem>
#include <span>
#include <thread>

#include "daemon/acts/acts.hpp"
#include "daemon/desk.hpp"
#include "daemon/opening.hpp"
#include "daemon/ports/sessions.hpp"
#include "daemon/server.hpp"
#include "drivers/link/open_port.hpp"
#include "tests/bench/bare.hpp"
#include "tests/bench/gauge.hpp"

namespace tenth::bench {

namespace fs = std::filesystem;

inline const char* const kShopSpec =
    "title = \"bench\"\nunit = \"mm\"\n[layout]\ncylinders = 8\n[feature.bore]\ncount = \"cylinders\"\nkind = "
    "\"inside\"\n"
    "limits = [83.000, 83.035]\nlevels = [\"top\", \"middle\", \"bottom\"]\naxes = [\"thrust\", \"pin\"]\nout_of_round "
    "= 0.010\n"
    "[feature.piston]\ncount = \"cylinders\"\nkind = \"outside\"\nlimits = [82.940, 82.960]\n"
    "[fit.piston_clearance]\ninside = \"bore\"\noutside = \"piston\"\nlimits = [0.040, 0.095]\n";

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

  void prepare(std::span<const Gauge> gauges) {
    act(engine_add, {{"name", "B"}, {"file", "bench.toml"}, {"text", kShopSpec}});
    for (const Gauge& gauge : gauges)
      act(gauge_add, {{"name", gauge.path()}, {"port", gauge.path()}, {"profile", "line"}, {"gauge_unit", "mm"}});
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

}  // namespace tenth::bench
