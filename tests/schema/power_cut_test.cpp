// What the disk holds after the power went: only what was synced is sure. And what it holds after `kill -9`.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>

#include "tests/schema/store_support.hpp"
#include "tests/support/faulty_vfs.hpp"

namespace tenth {
namespace {

/// The ledger opens, its chain holds, and it has from `least` to `most` entries: the first ones, in order.
void expect_whole(const std::filesystem::path& file, std::int64_t least, std::int64_t most) {
  const Ledger ledger = opened(Ledger::open(file));
  int n = 0;
  const auto finding = audit_ledger(ledger, [&](const Row& row) { ASSERT_EQ(row.body, body_of(++n)); });
  ASSERT_TRUE(finding);
  EXPECT_TRUE(finding->ok) << finding->why;
  EXPECT_GE(finding->entries, least) << "said to be stored and lost";
  EXPECT_LE(finding->entries, most);
}

/// A time of appends and restarts, of which each seed makes another, until the power goes.
class Service {
 public:
  explicit Service(unsigned seed) : chance_(seed) {}

  void until_power_cut() {
    ledger_ = opened(Ledger::open(folder_.ledger()));
    disk_.fail_at(static_cast<int>(chance_() % 400), SQLITE_IOERR, true);  // from then on nothing reaches the disk
    append_until_failure();
    disk_.cut_power(after_.path(), chance_);
    disk_.heal();
    expect_whole(after_.ledger(), stored_, tried_);
  }

 private:
  /// Appends groups of entries until a call fails at some point in the middle, if one is to fail at all.
  void append_until_failure() {
    while (stored_ < 60) {
      tried_ = stored_ + 1 + static_cast<int>(chance_() % 7);
      if (chance_() % 8 == 0) {  // a restart writes the log back
        ledger_.reset();
        auto again = Ledger::open(folder_.ledger());
        if (!again) return;
        ledger_ = std::move(*again);
      }
      if (!ledger_->append(bodies_of(stored_ + 1, tried_))) return;
      stored_ = tried_;
    }
  }

  std::mt19937 chance_;
  LedgerFolder folder_, after_;
  FaultyDisk disk_;
  std::optional<Ledger> ledger_;
  int stored_ = 0, tried_ = 0;
};

TEST(PowerCut, LosesNothingThatWasSaidToBeStored) {
  for (unsigned seed = 1; seed <= 200 && !::testing::Test::HasFailure(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Service(seed).until_power_cut();
  }
}

TEST(Kill, LosesNothingThatWasSaidToBeStored) {
  const LedgerFolder folder;
  int stored = 0;
  for (int life = 0; life < 10; ++life) {
    int said[2];
    ASSERT_EQ(::pipe(said), 0);
    const pid_t child = ::fork();
    if (child == 0) {
      Ledger ledger = std::move(*Ledger::open(folder.ledger()));
      for (auto n = static_cast<int>(ledger.head().seq) + 1;; ++n) {
        if (!ledger.append(bodies_of(n, n)) || ::write(said[1], &n, sizeof n) != sizeof n) ::_exit(1);
      }
    }
    ::close(said[1]);
    for (int heard = 0; heard < 20 + life; ++heard) ASSERT_EQ(::read(said[0], &stored, sizeof stored), 4);
    ::kill(child, SIGKILL);
    while (::read(said[0], &stored, sizeof stored) == sizeof stored) continue;  // said before it died
    ::close(said[0]);
    ::waitpid(child, nullptr, 0);
    expect_whole(folder.ledger(), stored, stored + 1);
  }
  EXPECT_GE(stored, 200);
}

}  // namespace
}  // namespace tenth
