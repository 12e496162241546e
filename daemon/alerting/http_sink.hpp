#pragma once

#include <boost/asio/awaitable.hpp>
#include <chrono>

#include "daemon/alerting/alert_sink.hpp"
#include "daemon/alerting/http_target.hpp"
#include "daemon/alerting/outbox.hpp"

namespace tenth {

/// An HTTP server that each line is posted to, one after the other. While it cannot be reached, is busy (429) or has
/// an error of its own (5xx), the line is posted again, after pauses that double; what it refuses is not.
class HttpSink : public AlertSink {
 public:
  struct Patience {
    std::chrono::milliseconds answer{10'000};  ///< from connecting to its answer
    std::chrono::milliseconds first_pause{1'000}, longest_pause{60'000};
  };
  HttpSink(const boost::asio::any_io_executor& loop, HttpTarget target);
  HttpSink(const boost::asio::any_io_executor& loop, HttpTarget target, Patience patience);
  void tell(std::string line) override { outbox_.put(std::move(line)); }

 private:
  static boost::asio::awaitable<void> run(HttpSink* self);
  boost::asio::awaitable<void> deliver(std::string line);

  HttpTarget target_;
  Patience patience_;
  Outbox outbox_;
};

}  // namespace tenth
