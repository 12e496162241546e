#pragma once

#include <boost/asio/awaitable.hpp>
#include <chrono>
#include <vector>

#include "daemon/alerting/alert_sink.hpp"
#include "daemon/alerting/outbox.hpp"

namespace tenth {

/// A program of the builder's: run once for each line, which it reads on its standard input; one after the other.
class ProgramSink : public AlertSink {
 public:
  ProgramSink(const boost::asio::any_io_executor& loop, std::vector<std::string> words,
              std::chrono::milliseconds limit = std::chrono::seconds(10));
  void tell(std::string line) override { outbox_.put(std::move(line)); }

 private:
  static boost::asio::awaitable<void> run(ProgramSink* self);

  std::vector<std::string> words_;
  std::chrono::milliseconds limit_;
  Outbox outbox_;
};

}  // namespace tenth
