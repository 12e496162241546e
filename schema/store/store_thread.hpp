#pragma once

#include <boost/asio/any_io_executor.hpp>
#include <functional>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include "schema/store/ledger.hpp"

namespace tenth {

/// The thread that owns the writing connection. The loop hands it one batch at a time; what arrives meanwhile waits in
/// the loop and becomes the next batch (group commit), so the queue here is one deep.
class StoreThread {
 public:
  using Stored = std::function<void(Result<std::vector<Digest>>)>;

  StoreThread(Ledger ledger, boost::asio::any_io_executor loop);
  /// Finishes the batch in hand, then ends.
  ~StoreThread();
  StoreThread(const StoreThread&) = delete;
  StoreThread& operator=(const StoreThread&) = delete;

  /// Appends the bodies as one transaction, then calls `stored` on the loop. Not again before that.
  void append(std::vector<std::string> bodies, Stored stored);

 private:
  void run();
  struct Shared;
  std::unique_ptr<Shared> shared_;
  std::thread thread_;
};

}  // namespace tenth
