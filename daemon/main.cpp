#include <spdlog/sinks/stdout_color_sinks.h>
#include <spdlog/spdlog.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <iostream>

#include "daemon/run.hpp"
#include "schema/json/escape.hpp"

namespace {

/// Options into `options`; an exit status where there is nothing to run.
std::optional<int> parse(int argc, char** argv, tenth::Options& options) {
  CLI::App app(
      "Captures readings of digital gauges into an append-only ledger. Runs in the foreground and logs to stderr.",
      "tenthd");
  app.set_version_flag("--version", "tenthd " TENTH_VERSION);
  app.add_option("--config", options.config, "configuration file")->type_name("FILE");
  app.add_option("--state", options.state, "directory that holds ledger.db")->type_name("DIR");
  app.add_option("--socket", options.socket, "Unix socket that `tenth` talks to")->type_name("PATH");
  app.add_option("--http", options.http, "serve the bench page there; off unless asked for")
      ->type_name("HOST:PORT|off");
  app.add_flag("--new-ledger", options.new_ledger,
               "put the present ledger aside and begin another that names its head");
  app.footer(
      "Examples:\n  tenthd\n  tenthd --state ./bench --socket ./bench/tenthd.sock\n\nIt is ready when its socket "
      "answers; SIGTERM, SIGINT or SIGHUP stops it.");
  try {
    app.parse(argc, argv);
  } catch (const CLI::Success& success) {
    return app.exit(success);
  } catch (const CLI::ParseError& error) {
    std::cerr << "tenthd: " << tenth::printable(error.what()) << "; see tenthd --help\n";
    return static_cast<int>(tenth::Exit::words);
  }
  return std::nullopt;
}

}  // namespace

int main(int argc, char** argv) {
  spdlog::set_default_logger(spdlog::stderr_color_mt("tenthd"));
  spdlog::set_pattern("%Y-%m-%dT%H:%M:%S.%e %^%l%$ %v");
  tenth::Options options;
  if (const auto status = parse(argc, argv, options)) return *status;
  const auto ended = tenth::run_daemon(options);
  if (ended) return static_cast<int>(tenth::Exit::done);
  std::cerr << "tenthd: " << tenth::printable(ended.error().message) << "; " << ended.error().remedy << "\n";
  return static_cast<int>(ended.error().exit);
}
