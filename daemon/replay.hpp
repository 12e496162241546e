#pragma once

#include <boost/asio/awaitable.hpp>
#include <cstdint>
#include <memory>

#include "daemon/methods.hpp"

namespace tenth {

/// Somebody who is told events.
class Listener {
 public:
  virtual ~Listener() = default;
  virtual bool gone() const = 0;
  /// An event of the entry `seq`, to be sent.
  virtual void hear(const Json& event, std::int64_t seq) = 0;
  /// Waits while what was sent is not read.
  virtual boost::asio::awaitable<void> room() = 0;
};

/// Folds the ledger from its beginning and tells what came after `since`, as it was told then; goes on until it has
/// reached the live events. A few rows at a time, so that the loop stays free for gauges. False: the ledger could not
/// be read to its end.
boost::asio::awaitable<bool> replay(Methods& methods, std::shared_ptr<Listener> listener, std::int64_t since);

}  // namespace tenth
