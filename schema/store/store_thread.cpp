#include "schema/store/store_thread.hpp"

#include <boost/asio/executor_work_guard.hpp>
#include <boost/asio/post.hpp>
#include <cassert>
#include <condition_variable>
#include <mutex>
#include <optional>
#include <utility>

namespace tenth {
namespace {

using Loop = boost::asio::any_io_executor;

struct Batch {
  std::vector<std::string> bodies;
  StoreThread::Stored stored;
  boost::asio::executor_work_guard<Loop> keeps_loop_running;
};

/// `stored` with what became of its batch.
struct Answer {
  StoreThread::Stored stored;
  Result<std::vector<Digest>> result;
  void operator()() { stored(std::move(result)); }
};

}  // namespace

struct StoreThread::Shared {
  Shared(Ledger writer, Loop told) : ledger(std::move(writer)), loop(std::move(told)) {}

  Ledger ledger;  ///< the store thread's alone
  Loop loop;
  std::mutex mutex;  ///< guards what follows
  std::condition_variable changed;
  std::optional<Batch> waiting;
  bool busy = false;  ///< from `append` until its answer is posted
  bool ending = false;
};

StoreThread::StoreThread(Ledger ledger, Loop loop)
    : shared_(std::make_unique<Shared>(std::move(ledger), std::move(loop))) {
  thread_ = std::thread(&StoreThread::run, this);
}

StoreThread::~StoreThread() {
  {
    const std::lock_guard lock(shared_->mutex);
    shared_->ending = true;
  }
  shared_->changed.notify_one();
  thread_.join();
}

void StoreThread::append(std::vector<std::string> bodies, Stored stored) {
  {
    const std::lock_guard lock(shared_->mutex);
    assert(!shared_->busy && "the batch before has not been answered yet");
    shared_->busy = true;
    shared_->waiting.emplace(Batch{std::move(bodies), std::move(stored), boost::asio::make_work_guard(shared_->loop)});
  }
  shared_->changed.notify_one();
}

void StoreThread::run() {
  std::unique_lock lock(shared_->mutex);
  for (;;) {
    shared_->changed.wait(lock, [this] { return shared_->waiting || shared_->ending; });
    if (!shared_->waiting) return;
    Batch batch = std::move(*shared_->waiting);
    shared_->waiting.reset();
    lock.unlock();
    auto result = shared_->ledger.append(batch.bodies);
    lock.lock();
    shared_->busy = false;
    boost::asio::post(shared_->loop, Answer{std::move(batch.stored), std::move(result)});
  }
}

}  // namespace tenth
