#pragma once

#include <boost/asio/any_io_executor.hpp>
#include <boost/asio/steady_timer.hpp>
#include <functional>
#include <memory>
#include <vector>

#include "daemon/alerting/alert_config.hpp"
#include "daemon/alerting/alert_sink.hpp"
#include "daemon/alerting/crier.hpp"
#include "daemon/clock.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth {

using AlertSinks = std::vector<std::unique_ptr<AlertSink>>;

/// The sinks that the configuration names.
AlertSinks alert_sinks(const boost::asio::any_io_executor& loop, const AlertConfig& config);

/// Brings alerts to their sinks and into the log, and tells open ones again, to those who watch too.
class Alerting {
 public:
  using Tell = std::function<void(const Json& event)>;

  /// `tell` is for events that those who watch have not heard; it may come back here.
  Alerting(const boost::asio::any_io_executor& loop, const Clock& clock, AlertSinks sinks, Tell tell, Crier crier = {});

  /// Alerts that are open in the ledger as it was found. `bench` stays; what is told again has its figures of then.
  void start(const Bench& bench);
  /// Any event, after its commit.
  void hear(const Json& event);
  /// Tells what is due by the clock.
  void tell_due();

 private:
  void bring(const Json& event);
  void bring_up_to_date(Json& alert) const;
  void wait();

  const Clock& clock_;
  const Bench* bench_ = nullptr;
  AlertSinks sinks_;
  Tell tell_;
  Crier crier_;
  boost::asio::steady_timer next_;
};

}  // namespace tenth
