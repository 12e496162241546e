#include <gtest/gtest.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>

#include "tests/schema/store_support.hpp"
#include "tests/support/faulty_vfs.hpp"

namespace tenth {
namespace {

namespace fs = std::filesystem;

void write_file(const fs::path& file, const std::string& bytes) {
  std::ofstream(file, std::ios::binary) << bytes;
}

TEST(LedgerRefusal, AbsentToAReader) {
  const LedgerFolder folder;
  EXPECT_EQ(code_of(Ledger::open_read_only(folder.ledger())), "ledger_absent");
  EXPECT_FALSE(fs::exists(folder.ledger()));
}

TEST(LedgerRefusal, LockedByAnotherWriter) {
  const LedgerFolder folder;
  {
    const Ledger writer = opened(Ledger::open(folder.ledger()));
    EXPECT_EQ(code_of(Ledger::open(folder.ledger())), "ledger_locked");
    EXPECT_EQ(code_of(Ledger::open(folder.path() / "other.db")), "done") << "each ledger has a lock of its own";
  }
  EXPECT_EQ(code_of(Ledger::open(folder.ledger())), "done");
}

TEST(LedgerRefusal, LockedInTheMiddleOfSomebodysWriting) {
  const LedgerFolder folder;
  make_ledger(folder.ledger(), 1);
  Outsider outsider(folder.ledger());
  ASSERT_EQ(outsider.run("BEGIN IMMEDIATE"), "");
  EXPECT_EQ(code_of(Ledger::open(folder.ledger())), "ledger_locked");
  ASSERT_EQ(outsider.run("ROLLBACK"), "");
  EXPECT_EQ(code_of(Ledger::open(folder.ledger())), "done");
}

TEST(LedgerRefusal, NotStoredWhileSomebodyWrites) {
  const LedgerFolder folder;
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  ASSERT_TRUE(ledger.append(bodies_of(1, 1)));
  const Head before = ledger.head();
  Outsider outsider(folder.ledger());
  ASSERT_EQ(outsider.run("BEGIN IMMEDIATE"), "");
  EXPECT_EQ(code_of(ledger.append(bodies_of(2, 3))), "not_stored");
  EXPECT_EQ(ledger.head().seq, before.seq);
  EXPECT_EQ(ledger.head().hash, before.hash);
  ASSERT_EQ(outsider.run("ROLLBACK"), "");
  ASSERT_TRUE(ledger.append(bodies_of(2, 3)));
  EXPECT_EQ(audit_ledger(ledger)->entries, 3);
}

TEST(LedgerRefusal, NotStoredWhereAnotherProgramWroteARow) {
  const LedgerFolder folder;
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  ASSERT_TRUE(ledger.append(bodies_of(1, 1)));
  ASSERT_EQ(Outsider(folder.ledger()).run("INSERT INTO entry VALUES(2, '{}', x'00')"), "");
  for (int again = 0; again < 2; ++again) {
    const auto result = ledger.append(bodies_of(2, 2));
    ASSERT_EQ(code_of(result), "not_stored");
    EXPECT_NE(result.error().remedy.find("another program"), std::string::npos) << result.error().remedy;
    EXPECT_EQ(ledger.head().seq, 1);
  }
}

/// Puts body_of(n) behind body_of(n - 1), as a commit of ours would whose outcome SQLite could not tell us.
std::string insert_of(int n) {
  Digest hash{};
  for (int each = 1; each <= n; ++each) hash = chain(hash, sha256(body_of(each)));
  return "INSERT INTO entry VALUES(" + std::to_string(n) + ", '" + body_of(n) + "', x'" + hex(hash) + "')";
}

TEST(LedgerRefusal, StoresOnceWhereTheFailedCommitHadReachedTheDisk) {
  const LedgerFolder folder;
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  ASSERT_TRUE(ledger.append(bodies_of(1, 1)));
  ASSERT_EQ(Outsider(folder.ledger()).run(insert_of(2)), "");
  ASSERT_TRUE(ledger.append(bodies_of(2, 2))) << "it is there, which is all that was asked";
  EXPECT_EQ(ledger.head().seq, 2);
  ASSERT_TRUE(ledger.append(bodies_of(3, 3)));
  EXPECT_EQ(audit_ledger(ledger)->entries, 3);
}

TEST(LedgerRefusal, StoresOnlyTheRestWhereTheFailedCommitIsFoundLater) {
  const LedgerFolder folder;
  FaultyDisk disk;
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  ASSERT_TRUE(ledger.append(bodies_of(1, 1)));
  disk.fail_syncs();
  ASSERT_EQ(code_of(ledger.append(bodies_of(2, 3))), "not_known");
  disk.heal();
  ASSERT_EQ(Outsider(folder.ledger()).run("BEGIN;" + insert_of(2) + ";" + insert_of(3) + "; COMMIT"), "");
  const auto hashes = ledger.append(bodies_of(2, 5));
  ASSERT_TRUE(hashes) << hashes.error().message;
  EXPECT_EQ(hashes->size(), 4u);
  EXPECT_EQ(ledger.head().seq, 5);
  const auto finding = audit_ledger(ledger);
  EXPECT_TRUE(finding->ok) << finding->why;
  EXPECT_EQ(finding->entries, 5);
}

TEST(LedgerRefusal, OnceNotKnownItStaysSoUntilItIsStored) {
  const LedgerFolder folder;
  FaultyDisk disk;
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  ASSERT_TRUE(ledger.append(bodies_of(1, 1)));
  disk.fail_syncs();
  ASSERT_EQ(code_of(ledger.append(bodies_of(2, 3))), "not_known");
  disk.heal();
  {
    Outsider outsider(folder.ledger());
    ASSERT_EQ(outsider.run("BEGIN IMMEDIATE"), "");
    ASSERT_EQ(code_of(ledger.append(bodies_of(2, 3))), "not_known") << "locked now, but the log may still hold them";
  }
  ASSERT_TRUE(ledger.append(bodies_of(2, 3)));
  Outsider outsider(folder.ledger());
  ASSERT_EQ(outsider.run("BEGIN IMMEDIATE"), "");
  EXPECT_EQ(code_of(ledger.append(bodies_of(4, 4))), "not_stored");
}

TEST(LedgerRefusal, AFullDiskLeavesNothingAndIsNotStored) {
  const LedgerFolder folder;
  FaultyDisk disk;
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  ASSERT_TRUE(ledger.append(bodies_of(1, 1)));
  disk.fail_at(1, SQLITE_FULL, true);  // the first write of the commit: nothing else calls the disk by now
  ASSERT_EQ(code_of(ledger.append(bodies_of(2, 3))), "not_stored");
  disk.heal();
  ASSERT_TRUE(ledger.append(bodies_of(4, 4)));
  EXPECT_EQ(audit_ledger(ledger)->entries, 2);
}

TEST(LedgerRefusal, AfterNotStoredAnythingMayFollow) {
  const LedgerFolder folder;
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  ASSERT_TRUE(ledger.append(bodies_of(1, 1)));
  {
    Outsider outsider(folder.ledger());
    ASSERT_EQ(outsider.run("BEGIN IMMEDIATE"), "");
    ASSERT_EQ(code_of(ledger.append(bodies_of(2, 3))), "not_stored");
  }
  ASSERT_TRUE(ledger.append(bodies_of(7, 9)));
  EXPECT_EQ(ledger.rows(2, 9)->front().body, body_of(7));
  EXPECT_EQ(audit_ledger(ledger)->entries, 4);
}

TEST(LedgerRefusal, ReadOnlyFileEvenForRoot) {
  const LedgerFolder folder;
  make_ledger(folder.ledger(), 1);
  fs::permissions(folder.ledger(), fs::perms(0444));
  EXPECT_EQ(code_of(Ledger::open(folder.ledger())), "ledger_read_only");
  EXPECT_EQ(fs::status(folder.ledger()).permissions(), fs::perms(0444)) << "the owner's wish stands";
  EXPECT_EQ(opened(Ledger::open_read_only(folder.ledger())).head().seq, 1);
}

TEST(LedgerRefusal, ReadOnlyFolder) {
  const LedgerFolder folder;
  fs::permissions(folder.path(), fs::perms(0555));
  EXPECT_EQ(code_of(Ledger::open(folder.ledger())), "ledger_read_only");
  EXPECT_FALSE(fs::exists(folder.ledger()));
}

/// Runs `act` in a child process that is not root, and gives what it returned.
int as_nobody(const std::function<int()>& act) {
  const pid_t child = ::fork();
  if (child == 0) {
    constexpr uid_t kNobody = 65534;
    if (::geteuid() == 0 && ::setuid(kNobody) != 0) ::_exit(99);
    ::_exit(act());
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 98;
}

TEST(LedgerRefusal, ACopyOnAReadOnlyMediumIsStillRead) {
  const LedgerFolder folder;
  const fs::path file = folder.path() / "a copy?.db";  // no such character may end the name in SQLite's eyes
  make_ledger(file, 2);
  fs::remove(file.string() + "-lock");
  fs::permissions(file, fs::perms(0444));
  fs::permissions(folder.path(), fs::perms(0555));
  const int entries = as_nobody([&] {
    const auto ledger = Ledger::open_read_only(file);
    return ledger ? static_cast<int>(audit_ledger(*ledger)->entries) : 97;
  });
  EXPECT_EQ(entries, 2);
}

TEST(LedgerRefusal, NewerThanThisProgram) {
  const LedgerFolder folder;
  make_ledger(folder.ledger(), 1);
  ASSERT_EQ(Outsider(folder.ledger()).run("PRAGMA user_version = 2"), "");
  EXPECT_EQ(code_of(Ledger::open(folder.ledger())), "ledger_newer");
  EXPECT_EQ(code_of(Ledger::open_read_only(folder.ledger())), "ledger_newer");
}

TEST(LedgerRefusal, UnreadableWhereItIsNoLedger) {
  const std::pair<const char*, std::function<void(const fs::path&)>> files[] = {
      {"a text", [](const fs::path& file) { write_file(file, "seq,body,hash\n1,{},00\n" + std::string(5'000, 'x')); }},
      {"one byte", [](const fs::path& file) { write_file(file, "x"); }},
      {"a folder", [](const fs::path& file) { fs::create_directory(file); }},
      {"a pipe", [](const fs::path& file) { ::mkfifo(file.c_str(), 0600); }},
      {"another database", [](const fs::path& file) { Outsider(file).run("CREATE TABLE note(text)"); }},
      {"other columns", [](const fs::path& file) { Outsider(file).run("CREATE TABLE entry(seq, hash, body)"); }},
      {"a view", [](const fs::path& file) { Outsider(file).run("CREATE VIEW entry AS SELECT 1 seq, 2 body, 3 hash"); }},
      {"another program's database",
       [](const fs::path& file) {
         make_ledger(file, 1);
         Outsider(file).run("PRAGMA application_id = 7");
       }},
      {"a cut file",
       [](const fs::path& file) {
         make_ledger(file, 200);
         fs::resize_file(file, 100);
       }},
  };
  for (const auto& [what, make] : files) {
    const LedgerFolder folder;
    make(folder.ledger());
    EXPECT_EQ(code_of(Ledger::open(folder.ledger())), "ledger_unreadable") << what;
    EXPECT_EQ(code_of(Ledger::open_read_only(folder.ledger())), "ledger_unreadable") << what;
  }
}

TEST(LedgerRefusal, UnreadableWhereItsFolderIsMissing) {
  const LedgerFolder folder;
  EXPECT_EQ(code_of(Ledger::open(folder.path() / "absent" / "ledger.db")), "ledger_unreadable");
}

TEST(LedgerRefusal, UnreadableFromTheDamagedPageOn) {
  const LedgerFolder folder;
  make_ledger(folder.ledger(), 500);
  {
    std::fstream file(folder.ledger(), std::ios::binary | std::ios::in | std::ios::out);
    file.seekp(3 * 4096);
    file << std::string(4096, '\xA5');
  }
  const auto ledger = Ledger::open_read_only(folder.ledger());
  ASSERT_TRUE(ledger) << "the damage is not where it is looked at first";
  const auto rows = ledger->rows(1, 500);
  ASSERT_EQ(code_of(rows), "ledger_unreadable");
  EXPECT_EQ(code_of(audit_ledger(*ledger)), "ledger_unreadable");
}

TEST(LedgerRefusal, AnEmptyDatabaseIsNoLedgerToAReader) {
  const LedgerFolder folder;
  write_file(folder.ledger(), "");
  EXPECT_EQ(code_of(Ledger::open_read_only(folder.ledger())), "ledger_unreadable");
}

TEST(LedgerRefusal, TakesALedgerThatWasRebuiltFromADump) {
  const LedgerFolder folder;
  make_ledger(folder.ledger(), 3);
  Outsider(folder.ledger()).run("PRAGMA user_version = 0; PRAGMA application_id = 0");
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  EXPECT_TRUE(ledger.append(bodies_of(4, 4)));
}

}  // namespace
}  // namespace tenth
