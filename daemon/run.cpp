#include "daemon/run.hpp"

#include <spdlog/spdlog.h>
#include <unistd.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <chrono>
#include <csignal>
#include <filesystem>

#include "daemon/alerting/alerting.hpp"
#include "daemon/desk.hpp"
#include "daemon/login.hpp"
#include "daemon/opening.hpp"
#include "daemon/page/server.hpp"
#include "daemon/ports/pedals.hpp"
#include "daemon/ports/sessions.hpp"
#include "daemon/server.hpp"
#include "drivers/link/open_port.hpp"

namespace tenth {
namespace {

namespace asio = boost::asio;
namespace fs = std::filesystem;

/// Bytes that are in the kernel when the signal comes are read in this time, and the last answers written.
constexpr std::chrono::milliseconds kLastBytes(50);

/// What lives while the daemon runs. The order is that of being built; it ends in the reverse.
class Running {
 public:
  Running(asio::io_context& loop, const Clock& clock, const Actor& self, Opened opened, const Config& config)
      : loop_(loop),
        store_(std::move(opened.ledger), loop.get_executor()),
        desk_({loop.get_executor(),
               [this](auto bodies, auto stored) { store_.append(std::move(bodies), std::move(stored)); },
               std::move(opened.bench), opened.head_hash, &clock, config.intake, self,
               [state = config.state] { return free_bytes(state); }, Desk::kAskAgain, config.alert.in_session}),
        methods_(desk_, config.state / "ledger.db"),
        alerting_(loop.get_executor(), clock, alert_sinks(loop.get_executor(), config.alert),
                  [this](const Json& event) { desk_.tell(event); }),
        sessions_(loop.get_executor(), desk_, drivers::open_port),
        pedals_(loop.get_executor(), desk_, drivers::open_port, self),
        self_(self),
        signals_(loop, SIGTERM, SIGINT, SIGHUP),
        last_bytes_(loop) {}

  Result<void> start(const Config& config);
  bool all_stored() const { return all_stored_; }

 private:
  static std::uint64_t free_bytes(const fs::path& state) {
    std::error_code error;
    const fs::space_info space = fs::space(state, error);
    return error ? 0 : space.available;
  }
  void stop();

  asio::io_context& loop_;
  StoreThread store_;
  Desk desk_;
  Methods methods_;
  Alerting alerting_;
  Sessions sessions_;
  Pedals pedals_;
  Actor self_;
  std::unique_ptr<Server> server_;
  std::unique_ptr<PageServer> page_;
  asio::signal_set signals_;
  asio::steady_timer last_bytes_;
  bool all_stored_ = true;
};

Result<void> Running::start(const Config& config) {
  TENTH_TRY(server_, Server::listen(loop_.get_executor(), methods_, config.socket));
  if (config.page.at) {
    TENTH_TRY(page_, PageServer::listen(loop_.get_executor(), methods_, config.page, self_));
    methods_.page_at(page_->address_with_token());
  }
  desk_.listen(
      [this](const Json& event, std::int64_t seq) {
        server_->tell(event, seq);
        if (page_) page_->tell(event, seq);
        alerting_.hear(event);
      },
      [this](const Entry& entry) {
        sessions_.follow(entry, desk_.bench());
        pedals_.follow(entry, desk_.bench());
      });
  alerting_.start(desk_.bench());
  sessions_.start_all(desk_.bench());
  pedals_.start_all(desk_.bench());
  server_->start();
  if (page_) page_->start();
  signals_.async_wait([this](const boost::system::error_code& error, int) {
    if (!error) stop();
  });
  spdlog::info("ready on {}", config.socket.string());
  if (page_) spdlog::info("the bench page is at {}", page_->address());
  return {};
}

/// Complete frames are stored, a part frame becomes a fault, the last entry says that it was a clean stop.
void Running::stop() {
  last_bytes_.expires_after(kLastBytes);
  last_bytes_.async_wait([this](const boost::system::error_code&) {
    sessions_.stop_all();
    pedals_.stop_all();
    desk_.happen("daemon",
                 [](Draft& draft) { draft.append("stop", {{"program", "tenthd"}, {"version", TENTH_VERSION}}); });
    desk_.when_idle([this](bool stored) {
      all_stored_ = stored;
      last_bytes_.expires_after(kLastBytes);  // answers are on their way
      last_bytes_.async_wait([this](const boost::system::error_code&) {
        server_->stop();
        if (page_) page_->stop();
        loop_.stop();
      });
    });
  });
}

}  // namespace

Result<void> run_daemon(const Options& options) {
  TENTH_TRY(const Config config, settle_config(options));
  TENTH_TRY(const StateLock lock, StateLock::take(config.state));
  const SystemClock clock;
  const Actor self{login_of(geteuid()), geteuid(), "daemon"};
  TENTH_TRY(Opened opened, open_ledger(config.state, options.new_ledger, clock, self));
  asio::io_context loop(1);
  Running running(loop, clock, self, std::move(opened), config);
  if (auto started = running.start(config); !started) return started;
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);  // a limit on file sizes is a disk that refuses
  loop.run();
  if (running.all_stored()) return {};
  return refuse("not_stored", "the disk refused what was left at the end",
                "mend the disk; the ports kept nothing back");
}

}  // namespace tenth
