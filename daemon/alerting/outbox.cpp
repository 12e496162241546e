#include "daemon/alerting/outbox.hpp"

#include <spdlog/spdlog.h>

#include <boost/asio/as_tuple.hpp>
#include <boost/asio/use_awaitable.hpp>

namespace tenth {

void Outbox::put(std::string line) {
  if (lines_.size() == kMost) {
    spdlog::error("alerts: {} is too slow; this is not told to it: {}", to_, lines_.front());
    lines_.pop_front();
  }
  lines_.push_back(std::move(line));
  filled_.cancel();
}

boost::asio::awaitable<std::string> Outbox::take() {
  while (lines_.empty()) co_await filled_.async_wait(boost::asio::as_tuple(boost::asio::use_awaitable));
  std::string line = std::move(lines_.front());
  lines_.pop_front();
  co_return line;
}

}  // namespace tenth
