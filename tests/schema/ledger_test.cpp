#include "schema/store/ledger.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <fstream>
#include <numeric>

#include "tests/schema/store_support.hpp"

namespace tenth {
namespace {

namespace fs = std::filesystem;

unsigned mode_of(const fs::path& file) {
  return static_cast<unsigned>(fs::status(file).permissions());
}

TEST(Ledger, BeginsAsAnEmptyChain) {
  const LedgerFolder folder;
  const Ledger ledger = opened(Ledger::open(folder.ledger()));
  EXPECT_EQ(ledger.head().seq, 0);
  EXPECT_EQ(ledger.head().hash, Digest{});
  EXPECT_TRUE(ledger.rows(1, 10)->empty());
}

TEST(Ledger, TakesAFileOfNoBytesForANewOne) {
  const LedgerFolder folder;
  std::ofstream(folder.ledger()).close();
  make_ledger(folder.ledger(), 1);
  EXPECT_EQ(opened(Ledger::open(folder.ledger())).head().seq, 1);
}

TEST(Ledger, HasTheFormatOfThePage) {
  const LedgerFolder folder;
  const Ledger ledger = opened(Ledger::open(folder.ledger()));
  Outsider outsider(folder.ledger());
  EXPECT_EQ(outsider.ask("SELECT sql FROM sqlite_schema WHERE name = 'entry'"),
            "CREATE TABLE entry(seq INTEGER PRIMARY KEY, body TEXT NOT NULL, hash BLOB NOT NULL)");
  EXPECT_EQ(outsider.ask("SELECT count(*) FROM sqlite_schema WHERE type <> 'trigger'"), "1");
  EXPECT_EQ(outsider.ask("PRAGMA journal_mode"), "wal");
  EXPECT_EQ(outsider.ask("PRAGMA user_version"), "1");
  EXPECT_EQ(outsider.ask("PRAGMA application_id"), std::to_string(0x544E5448));
}

TEST(Ledger, IsItsOwnersAlone) {
  const LedgerFolder folder;
  const mode_t before = ::umask(0);
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  EXPECT_TRUE(ledger.append(bodies_of(1, 1)));
  ::umask(before);
  for (const char* suffix : {"", "-wal", "-shm", "-lock"}) {
    EXPECT_EQ(mode_of(folder.ledger().string() + suffix), 0600u) << suffix;
  }
}

TEST(Ledger, ClosesAFileThatStoodOpenToOthers) {
  const LedgerFolder folder;
  make_ledger(folder.ledger(), 1);
  fs::permissions(folder.ledger(), fs::perms(0644));
  EXPECT_TRUE(Ledger::open(folder.ledger()));
  EXPECT_EQ(mode_of(folder.ledger()), 0600u);
}

TEST(Ledger, StoresTheWorkedRows) {
  const LedgerFolder folder;
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  const std::vector<std::string> bodies = {
      R"({"kind":"operator","name":"ann","time":"2026-01-02T03:04:05Z"})",
      "{\"kind\":\"note\",\"text\":\"caf\xC3\xA9 \xE2\x82\xAC\",\"time\":\"2026-01-02T03:04:06Z\"}"};
  const auto hashes = ledger.append(bodies);
  ASSERT_TRUE(hashes);
  EXPECT_EQ(hex(hashes->at(0)), "483575da18876a8e4291604fef18dab19c9120c5446eaccdd41039596ccefe2b");
  EXPECT_EQ(hex(hashes->at(1)), "558c335a0e10c444bd20e6191d2f992efa0f11b8c2a2b52e3402482b084ab192");
  EXPECT_EQ(ledger.head().seq, 2);
  EXPECT_EQ(ledger.head().hash, hashes->at(1));
  Outsider outsider(folder.ledger());
  EXPECT_EQ(outsider.ask("SELECT body FROM entry WHERE seq = 2"), bodies[1]);
  EXPECT_EQ(outsider.ask("SELECT lower(hex(hash)) FROM entry WHERE seq = 2"), hex(hashes->at(1)));
  EXPECT_EQ(outsider.ask("SELECT typeof(body) || ' ' || typeof(hash) FROM entry"), "text blob");
}

TEST(Ledger, AppendsOneByOneAndInGroupsTheSameChain) {
  const LedgerFolder one_by_one, grouped;
  Ledger first = opened(Ledger::open(one_by_one.ledger()));
  for (int n = 1; n <= 20; ++n) EXPECT_TRUE(first.append(bodies_of(n, n)));
  Ledger second = opened(Ledger::open(grouped.ledger()));
  EXPECT_TRUE(second.append(bodies_of(1, 13)));
  EXPECT_TRUE(second.append(bodies_of(14, 20)));
  EXPECT_EQ(first.head().seq, 20);
  EXPECT_EQ(first.head().hash, second.head().hash);
}

TEST(Ledger, AppendsNothingAsNothing) {
  const LedgerFolder folder;
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  EXPECT_TRUE(ledger.append({})->empty());
  EXPECT_EQ(ledger.head().seq, 0);
}

TEST(Ledger, GivesRowsInOrderByChunks) {
  const LedgerFolder folder;
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  const auto hashes = ledger.append(bodies_of(1, 25));
  ASSERT_TRUE(hashes);
  int n = 0;
  for (std::int64_t from = 1; from <= 25; from += 10) {
    const auto rows = ledger.rows(from, 10);
    ASSERT_TRUE(rows);
    for (const Row& row : *rows) {
      ++n;
      EXPECT_EQ(row.seq, n);
      EXPECT_EQ(row.body, body_of(n));
      EXPECT_EQ(row.hash, hashes->at(static_cast<std::size_t>(n) - 1));
    }
  }
  EXPECT_EQ(n, 25);
  EXPECT_EQ(ledger.rows(20, 3)->size(), 3u);
  EXPECT_TRUE(ledger.rows(26, 10)->empty());
}

TEST(Ledger, GoesOnWhereItStood) {
  const LedgerFolder folder;
  make_ledger(folder.ledger(), 3);
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  EXPECT_EQ(ledger.head().seq, 3);
  EXPECT_TRUE(ledger.append(bodies_of(4, 4)));
  const auto finding = audit_ledger(ledger);
  ASSERT_TRUE(finding);
  EXPECT_TRUE(finding->ok) << finding->why;
  EXPECT_EQ(finding->head.seq, 4);
}

TEST(Ledger, KeepsATextOfAMegabyte) {
  const LedgerFolder folder;
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  const std::string big = R"({"kind":"spec","text":")" + std::string(1 << 20, 'x') + R"(","time":"2026"})";
  ASSERT_TRUE(ledger.append(std::vector{big}));
  EXPECT_EQ(ledger.rows(1, 1)->front().body, big);
}

TEST(Ledger, IsReadBesideTheWriter) {
  const LedgerFolder folder;
  Ledger writer = opened(Ledger::open(folder.ledger()));
  ASSERT_TRUE(writer.append(bodies_of(1, 2)));
  const Ledger reader = opened(Ledger::open_read_only(folder.ledger()));
  EXPECT_EQ(reader.head().seq, 2);
  ASSERT_TRUE(writer.append(bodies_of(3, 3)));
  EXPECT_EQ(reader.rows(1, 10)->size(), 3u);
  EXPECT_EQ(reader.head().seq, 2) << "as it stood when opened";
}

TEST(Ledger, WritesEverythingBackWhenItCloses) {
  const LedgerFolder folder;
  make_ledger(folder.ledger(), 5);
  EXPECT_FALSE(fs::exists(folder.ledger().string() + "-wal"));
  fs::copy_file(folder.ledger(), folder.path() / "copy.db");
  EXPECT_EQ(opened(Ledger::open_read_only(folder.path() / "copy.db")).head().seq, 5);
}

TEST(Ledger, WritesBackWhileAReaderLooksOn) {
  const LedgerFolder folder;
  auto writer = std::make_unique<Ledger>(opened(Ledger::open(folder.ledger())));
  ASSERT_TRUE(writer->append(bodies_of(1, 5)));
  const Ledger reader = opened(Ledger::open_read_only(folder.ledger()));
  writer.reset();
  fs::copy_file(folder.ledger(), folder.path() / "copy.db");  // the file alone, without its log
  EXPECT_EQ(opened(Ledger::open_read_only(folder.path() / "copy.db")).head().seq, 5);
}

TEST(Ledger, LeavesAnExistingFileAsItIsUntilItAppends) {
  const LedgerFolder folder;
  make_ledger(folder.ledger(), 3);
  Outsider(folder.ledger()).run("DROP TRIGGER entry_stays");
  const auto bytes = [&] {
    std::ifstream file(folder.ledger(), std::ios::binary);
    return std::string(std::istreambuf_iterator<char>(file), {});
  };
  const std::string before = bytes();
  EXPECT_TRUE(Ledger::open(folder.ledger()));
  EXPECT_TRUE(Ledger::open_read_only(folder.ledger()));
  EXPECT_EQ(bytes(), before);
}

}  // namespace
}  // namespace tenth
