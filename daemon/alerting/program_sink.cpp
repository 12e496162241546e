#include "daemon/alerting/program_sink.hpp"

#include <spdlog/spdlog.h>

#include <boost/asio/co_spawn.hpp>
#include <boost/asio/use_awaitable.hpp>

#include "daemon/alerting/program_run.hpp"
#include "schema/json/escape.hpp"

namespace tenth {
namespace {

void log_end(const std::string& program, const Result<ProgramEnd>& end) {
  if (!end) return spdlog::error("alerts: {}; {}", end.error().message, end.error().remedy);
  const std::string said = end->said.empty() ? "" : ": " + printable(end->said.substr(0, end->said.find('\n')));
  if (end->killed) return spdlog::error("alerts: {} did not end in time and was killed{}", program, said);
  if (end->status != 0) spdlog::error("alerts: {} ended with {}{}", program, end->status, said);
}

}  // namespace

ProgramSink::ProgramSink(const boost::asio::any_io_executor& loop, std::vector<std::string> words,
                         std::chrono::milliseconds limit)
    : words_(std::move(words)), limit_(limit), outbox_(loop, words_.front()) {
  boost::asio::co_spawn(loop, run(this), [](const std::exception_ptr& error) {
    if (error) spdlog::critical("alerts: the program's sink ended by an error of ours");
  });
}

boost::asio::awaitable<void> ProgramSink::run(ProgramSink* self) {
  while (true) {
    const std::string line = co_await self->outbox_.take();
    const auto end = co_await run_program(self->words_, line + "\n", self->limit_);
    log_end(self->words_.front(), end);
  }
}

}  // namespace tenth
