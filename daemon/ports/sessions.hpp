#pragma once

#include <map>
#include <memory>
#include <string>

#include "daemon/ports/port_session.hpp"

namespace tenth {

/// The sessions of all ports; follows the ledger as gauges are added, changed and dropped.
class Sessions {
 public:
  Sessions(boost::asio::any_io_executor loop, Desk& desk, OpenLink open)
      : loop_(std::move(loop)), desk_(desk), open_(std::move(open)) {}

  void start_all(const Bench& bench);
  void follow(const Entry& entry, const Bench& bench);
  /// Nothing that the ports received is left behind.
  void stop_all();

 private:
  void start(const Gauge& gauge, const Bench& bench);
  void stop(const std::string& gauge);

  boost::asio::any_io_executor loop_;
  Desk& desk_;
  OpenLink open_;
  std::map<std::string, std::shared_ptr<PortSession>> sessions_;  ///< by the port as `gauge add` took it
};

}  // namespace tenth
