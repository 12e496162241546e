// A whole life of a ledger (open, appends, close, open again, append) in which the n-th call to the disk fails, for
// every n until none is left to fail; after the manner of SQLite's own tests.
#include <gtest/gtest.h>

#include "tests/schema/faulty_vfs.hpp"
#include "tests/schema/store_support.hpp"

namespace tenth {
namespace {

namespace fs = std::filesystem;

struct Fault {
  std::string name;
  int code;
  bool for_ever;  ///< until somebody sees to the disk
  bool gives_up;  ///< a refused append ends the program; else the same bodies are tried again
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
    expect_whole(folder_.ledger(), stored_, stored_);
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
    const std::vector<std::string> bodies = bodies_of(stored_ + 1, stored_ + count);
    const Head before = ledger_->head();
    auto hashes = ledger_->append(bodies);
    for (int again = 0; !hashes; ++again) {
      EXPECT_EQ(hashes.error().code, "not_stored");
      EXPECT_EQ(ledger_->head().seq, before.seq);
      EXPECT_EQ(ledger_->head().hash, before.hash);
      expect_sound_if_killed_now(count);
      if (again > 0) disk_.heal();
      ASSERT_LT(again, 3) << "it stores when nothing fails: " << hashes.error().message;
      if (fault_.gives_up && came_back_with(count)) return;
      hashes = ledger_->append(bodies);
    }
    EXPECT_EQ(ledger_->head().seq, before.seq + count);
    EXPECT_EQ(ledger_->head().hash, hashes->back());
    stored_ += count;
  }

  /// Starts again after a refused append. True if its rows were on the disk all the same.
  bool came_back_with(int count) {
    ledger_.reset();
    disk_.heal();
    ledger_ = open();
    const bool there = ledger_->head().seq == stored_ + count;
    if (there) stored_ += count;
    EXPECT_EQ(ledger_->head().seq, stored_) << "all or nothing";
    return there;
  }

  /// The files as they are, taken from under the open ledger: what the next start finds after a kill.
  void expect_sound_if_killed_now(int count) const {
    const Folder other;
    for (const char* suffix : {"", "-wal"}) {
      const fs::path file = folder_.ledger().string() + suffix;
      if (fs::exists(file)) fs::copy_file(file, other.path() / file.filename());
    }
    expect_whole(other.ledger(), stored_, stored_ + count);
  }

  /// By the usual disk: sound as a database and as a chain, each of the first `least` bodies there once, in order, and
  /// of the following up to `most` none twice.
  static void expect_whole(const fs::path& file, int least, int most) {
    Outsider outsider(file, "unix");
    ASSERT_EQ(outsider.ask("PRAGMA integrity_check"), "ok");
    const int rows = std::stoi(outsider.ask("SELECT count(*) FROM entry"));
    EXPECT_GE(rows, least);
    EXPECT_LE(rows, most);
    Digest hash{};
    for (int n = 1; n <= rows; ++n) {
      const std::string where = " FROM entry WHERE seq = " + std::to_string(n);
      ASSERT_EQ(outsider.ask("SELECT body" + where), body_of(n));
      hash = chain(hash, sha256(body_of(n)));
      ASSERT_EQ(outsider.ask("SELECT lower(hex(hash))" + where), hex(hash));
    }
  }

  Folder folder_;
  FaultyDisk disk_;
  Fault fault_;
  std::optional<Ledger> ledger_;
  int stored_ = 0;
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
