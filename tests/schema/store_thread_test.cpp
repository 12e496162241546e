#include "schema/store/store_thread.hpp"

#include <gtest/gtest.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/steady_timer.hpp>

#include "tests/schema/store_support.hpp"

namespace tenth {
namespace {

using boost::asio::io_context;

TEST(StoreThread, AnswersOnTheLoopOnceTheDiskHasIt) {
  const LedgerFolder folder;
  io_context loop;
  StoreThread store(opened(Ledger::open(folder.ledger())), loop.get_executor());
  std::thread::id answered_on;
  store.append(bodies_of(1, 3), [&](Result<std::vector<Digest>> stored) {
    answered_on = std::this_thread::get_id();
    ASSERT_TRUE(stored);
    EXPECT_EQ(stored->size(), 3u);
    const Ledger reader = opened(Ledger::open_read_only(folder.ledger()));
    EXPECT_EQ(reader.head().seq, 3);
    EXPECT_EQ(reader.head().hash, stored->back());
  });
  EXPECT_GT(loop.run(), 0u) << "the batch in hand keeps the loop running";
  EXPECT_EQ(answered_on, std::this_thread::get_id());
}

/// What a loop does: while a batch is on its way, entries gather and become the next batch.
class Gatherer {
 public:
  Gatherer(StoreThread& store, io_context& loop, int last) : store_(store), loop_(loop), last_(last) {}

  void next() {
    if (made_ == last_) return;
    waiting_.push_back(body_of(++made_));
    if (!busy_) send();
    boost::asio::post(loop_, [this] { next(); });
  }

  int batches() const { return batches_; }
  const std::vector<Digest>& hashes() const { return hashes_; }

 private:
  void send() {
    busy_ = true;
    ++batches_;
    store_.append(std::exchange(waiting_, {}), [this](Result<std::vector<Digest>> stored) {
      ASSERT_TRUE(stored);
      hashes_.insert(hashes_.end(), stored->begin(), stored->end());
      busy_ = false;
      if (!waiting_.empty()) send();
    });
  }

  StoreThread& store_;
  io_context& loop_;
  int last_, made_ = 0, batches_ = 0;
  bool busy_ = false;
  std::vector<std::string> waiting_;
  std::vector<Digest> hashes_;
};

TEST(StoreThread, CommitsWhatGatheredAsOneGroup) {
  const LedgerFolder folder;
  io_context loop;
  StoreThread store(opened(Ledger::open(folder.ledger())), loop.get_executor());
  Gatherer gatherer(store, loop, 2'000);
  gatherer.next();
  loop.run();
  EXPECT_EQ(gatherer.hashes().size(), 2'000u);
  EXPECT_LT(gatherer.batches(), 1'000);
  const auto finding = audit_ledger(opened(Ledger::open_read_only(folder.ledger())));
  ASSERT_TRUE(finding);
  EXPECT_TRUE(finding->ok) << finding->why;
  EXPECT_EQ(finding->entries, 2'000);
  EXPECT_EQ(finding->head.hash, gatherer.hashes().back());
}

TEST(StoreThread, TakesTheNextBatchFromWithinTheAnswer) {
  const LedgerFolder folder;
  io_context loop;
  StoreThread store(opened(Ledger::open(folder.ledger())), loop.get_executor());
  int answers = 0;
  std::function<void(Result<std::vector<Digest>>)> again = [&](const Result<std::vector<Digest>>& stored) {
    ASSERT_TRUE(stored);
    if (++answers < 50) store.append(bodies_of(answers + 1, answers + 1), again);
  };
  store.append(bodies_of(1, 1), again);
  loop.run();
  EXPECT_EQ(answers, 50);
  EXPECT_EQ(opened(Ledger::open_read_only(folder.ledger())).head().seq, 50);
}

TEST(StoreThread, FinishesTheBatchInHandBeforeItEnds) {
  const LedgerFolder folder;
  io_context loop;
  for (int life = 1; life <= 30; ++life) {  // whether or not its thread has woken when the end comes
    {
      StoreThread store(opened(Ledger::open(folder.ledger())), loop.get_executor());
      store.append(bodies_of(2 * life - 1, 2 * life), [](const auto&) {});
    }
    EXPECT_FALSE(std::filesystem::exists(folder.ledger().string() + "-wal")) << "it closed the ledger";
    const Ledger reader = opened(Ledger::open_read_only(folder.ledger()));
    ASSERT_EQ(reader.head().seq, 2 * life);
  }
}

TEST(StoreThread, EndsWithoutEverHavingStored) {
  const LedgerFolder folder;
  io_context loop;
  {
    const StoreThread store(opened(Ledger::open(folder.ledger())), loop.get_executor());
  }
  EXPECT_EQ(loop.run(), 0u);
}

TEST(StoreThread, TellsOfARefusalAndStoresTheSameBatchLater) {
  const LedgerFolder folder;
  io_context loop;
  StoreThread store(opened(Ledger::open(folder.ledger())), loop.get_executor());
  Outsider outsider(folder.ledger());
  ASSERT_EQ(outsider.run("BEGIN IMMEDIATE"), "");
  int refused = 0, stored = 0;
  std::function<void(Result<std::vector<Digest>>)> answer = [&](const Result<std::vector<Digest>>& result) {
    if (result) {
      ++stored;
      return;
    }
    EXPECT_EQ(result.error().code, "not_stored");
    if (++refused == 2) outsider.run("ROLLBACK");
    store.append(bodies_of(1, 2), answer);
  };
  store.append(bodies_of(1, 2), answer);
  loop.run();
  EXPECT_EQ(refused, 2);
  EXPECT_EQ(stored, 1);
  EXPECT_EQ(opened(Ledger::open_read_only(folder.ledger())).head().seq, 2);
}

}  // namespace
}  // namespace tenth
