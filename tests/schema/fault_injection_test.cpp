// A whole life of a ledger (open, appends, close, open again, append) in which the n-th call to the disk fails, for
// every n until none is left to fail; after the manner of SQLite's own tests.
#include <gtest/gtest.h>

#include "tests/schema/store_support.hpp"
#include "tests/support/faulty_vfs.hpp"

namespace tenth {
namespace {

namespace fs = std::filesystem;

using Bodies = std::vector<std::string>;

struct Fault {
  std::string name;
  int code;
  bool for_ever;  ///< until somebody sees to the disk
  bool gives_up;  ///< a refused append ends the program; else it is tried again, with other bodies if none is there
  friend void PrintTo(const Fault& fault, std::ostream* out) { *out << fault.name; }
};

class Life {
 public:
  Life(const Fault& fault, int n) : fault_(fault) { disk_.fail_at(n, fault.code, fault.for_ever); }

  /// Lives it; true if a call failed on the way.
  bool live() {
    ledger_ = open();
    append(1);
    append(3);
    append(1);
    ledger_.reset();  // its checkpoint may fail: nothing is lost by that
    ledger_ = open();
    append(2);
    ledger_.reset();
    const bool failed = disk_.has_failed();
    disk_.heal();
    expect_whole(folder_.ledger(), stored_, {});
    return failed;
  }

 private:
  std::optional<Ledger> open() {
    for (int again = 0; again < 2; ++again) {
      auto ledger = Ledger::open(folder_.ledger());
      if (ledger) return std::move(*ledger);
    }
    disk_.heal();
    return opened(Ledger::open(folder_.ledger()));
  }

  void append(int count) {
    Bodies bodies = other(count);
    const Head before = ledger_->head();
    auto hashes = ledger_->append(bodies);
    for (int again = 0; !hashes; ++again) {
      const bool none = hashes.error().code == "not_stored";
      EXPECT_TRUE(none || hashes.error().code == "not_known") << hashes.error().code;
      EXPECT_EQ(ledger_->head().seq, before.seq);
      EXPECT_EQ(ledger_->head().hash, before.hash);
      expect_sound_if_killed_now(none ? Bodies{} : bodies);
      if (again > 0) disk_.heal();
      ASSERT_LT(again, 3) << "it stores when nothing fails: " << hashes.error().message;
      if (fault_.gives_up && came_back_with(bodies)) return;
      if (none) bodies = other(count);
      hashes = ledger_->append(bodies);
    }
    EXPECT_EQ(ledger_->head().seq, before.seq + count);
    EXPECT_EQ(ledger_->head().hash, hashes->back());
    stored_.insert(stored_.end(), bodies.begin(), bodies.end());
  }

  /// Bodies that were never tried.
  Bodies other(int count) {
    made_ += count;
    return bodies_of(made_ - count + 1, made_);
  }

  /// Starts again after a refused append. True if its rows were on the disk all the same.
  bool came_back_with(const Bodies& bodies) {
    ledger_.reset();
    disk_.heal();
    ledger_ = open();
    const auto rows = static_cast<std::size_t>(ledger_->head().seq);
    const bool there = rows == stored_.size() + bodies.size();
    if (there) stored_.insert(stored_.end(), bodies.begin(), bodies.end());
    EXPECT_EQ(rows, stored_.size()) << "all or nothing";
    return there;
  }

  /// The files as they are, taken from under the open ledger: what the next start finds after a kill.
  void expect_sound_if_killed_now(const Bodies& perhaps) const {
    const LedgerFolder other;
    for (const char* suffix : {"", "-wal"}) {
      const fs::path file = folder_.ledger().string() + suffix;
      if (fs::exists(file)) fs::copy_file(file, other.path() / file.filename());
    }
    expect_whole(other.ledger(), stored_, perhaps);
  }

  /// By the usual disk: sound as a database and as a chain, each of the `sure` bodies there once, in order, and then
  /// nothing but `perhaps` the others.
  static void expect_whole(const fs::path& file, const Bodies& sure, const Bodies& perhaps) {
    Outsider outsider(file, "unix");
    ASSERT_EQ(outsider.ask("PRAGMA integrity_check"), "ok");
    const std::size_t rows = std::stoul(outsider.ask("SELECT count(*) FROM entry"));
    Bodies bodies = sure;
    bodies.insert(bodies.end(), perhaps.begin(), perhaps.end());
    ASSERT_GE(rows, sure.size());
    ASSERT_LE(rows, bodies.size());
    Digest hash{};
    for (std::size_t n = 0; n < rows; ++n) {
      const std::string where = " FROM entry WHERE seq = " + std::to_string(n + 1);
      ASSERT_EQ(outsider.ask("SELECT body" + where), bodies[n]);
      hash = chain(hash, sha256(bodies[n]));
      ASSERT_EQ(outsider.ask("SELECT lower(hex(hash))" + where), hex(hash));
    }
  }

  LedgerFolder folder_;
  FaultyDisk disk_;
  Fault fault_;
  std::optional<Ledger> ledger_;
  Bodies stored_;
  int made_ = 0;
};

class FaultInjection : public ::testing::TestWithParam<Fault> {};

TEST_P(FaultInjection, StoresEachEntryOnceWhicheverCallFails) {
  int n = 1;
  while (Life(GetParam(), n).live()) {
    ASSERT_FALSE(HasFatalFailure() || HasNonfatalFailure()) << "call " << n;
    ++n;
  }
  EXPECT_GT(n, 50) << "the life makes more calls than that";
}

INSTANTIATE_TEST_SUITE_P(Disk, FaultInjection,
                         ::testing::Values(Fault{"full_once", SQLITE_FULL, false, false},
                                           Fault{"full_for_ever", SQLITE_FULL, true, false},
                                           Fault{"full_then_restart", SQLITE_FULL, true, true},
                                           Fault{"error_once", SQLITE_IOERR, false, false},
                                           Fault{"error_for_ever", SQLITE_IOERR, true, false},
                                           Fault{"error_then_restart", SQLITE_IOERR, false, true}),
                         [](const auto& each) { return each.param.name; });

}  // namespace
}  // namespace tenth
