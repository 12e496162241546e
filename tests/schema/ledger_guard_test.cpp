// What the database itself refuses, tried with SQLite's own interface and none of our code in between.
#include <gtest/gtest.h>

#include "tests/schema/store_support.hpp"

namespace tenth {
namespace {

constexpr auto kNeverChanged = "an entry is never changed";
constexpr auto kNeverRemoved = "an entry is never removed";
constexpr auto kFollows = "an entry has the seq after the last";

class LedgerGuard : public ::testing::Test {
 protected:
  void SetUp() override { make_ledger(folder_.ledger(), 3); }
  void TearDown() override {
    const auto finding = audit_ledger(opened(Ledger::open_read_only(folder_.ledger())));
    ASSERT_TRUE(finding);
    EXPECT_TRUE(finding->ok) << finding->why;
    EXPECT_EQ(finding->entries, 3);
  }

  /// With and without recursive triggers, which say whether REPLACE fires the delete trigger.
  void expect_refused(const std::string& statement, const std::string& why) {
    for (const char* recursive : {"OFF", "ON"}) {
      Outsider outsider(folder_.ledger());
      outsider.run(std::string("PRAGMA recursive_triggers = ") + recursive);
      EXPECT_EQ(outsider.run(statement), why) << statement;
    }
  }

  LedgerFolder folder_;
};

TEST_F(LedgerGuard, RefusesUpdates) {
  expect_refused("UPDATE entry SET body = '{}'", kNeverChanged);
  expect_refused("UPDATE entry SET seq = 4 WHERE seq = 3", kNeverChanged);
  expect_refused("UPDATE entry SET hash = hash WHERE seq = 1", kNeverChanged);
  expect_refused("UPDATE OR REPLACE entry SET seq = 1 WHERE seq = 3", kNeverChanged);
  expect_refused("UPDATE OR IGNORE entry SET body = '{}'", kNeverChanged);
}

TEST_F(LedgerGuard, RefusesDeletes) {
  expect_refused("DELETE FROM entry", kNeverRemoved);
  expect_refused("DELETE FROM entry WHERE seq = 3", kNeverRemoved);
}

TEST_F(LedgerGuard, RefusesInsertsThatDoNotFollow) {
  for (const char* seq : {"5", "0", "-1", "3", "1", "NULL", "9223372036854775807"}) {
    for (const char* verb : {"INSERT", "INSERT OR REPLACE", "REPLACE", "INSERT OR IGNORE", "INSERT OR FAIL"}) {
      expect_refused(std::string(verb) + " INTO entry VALUES(" + seq + ", '{}', x'00')", kFollows);
    }
    expect_refused(std::string("INSERT INTO entry(rowid, body, hash) VALUES(") + seq + ", '{}', x'00')", kFollows);
  }
  expect_refused("INSERT INTO entry(body, hash) VALUES('{}', x'00')", kFollows);
  expect_refused("INSERT INTO entry SELECT seq + 10, body, hash FROM entry", kFollows);
  expect_refused("INSERT INTO entry VALUES(2, '{}', x'00') ON CONFLICT(seq) DO UPDATE SET body = '{}'", kFollows);
  expect_refused("INSERT INTO entry VALUES(2, '{}', x'00') ON CONFLICT DO NOTHING", kFollows);
}

TEST_F(LedgerGuard, RefusesRowsWithoutBodyOrHash) {
  expect_refused("INSERT INTO entry VALUES(4, NULL, x'00')", "NOT NULL constraint failed: entry.body");
  expect_refused("INSERT INTO entry VALUES(4, '{}', NULL)", "NOT NULL constraint failed: entry.hash");
}

TEST_F(LedgerGuard, TakesTheNextRowAndOnlyThat) {
  Outsider outsider(folder_.ledger());
  EXPECT_EQ(outsider.run("BEGIN; INSERT INTO entry VALUES(4, '{}', x'00'); INSERT INTO entry VALUES(5, '{}', x'00')"),
            "");
  EXPECT_EQ(outsider.run("INSERT INTO entry VALUES(5, '{}', x'00')"), kFollows);
  EXPECT_EQ(outsider.run("ROLLBACK"), "");
}

TEST_F(LedgerGuard, ComesBackWithTheNextAppend) {
  const LedgerFolder other;
  make_ledger(other.ledger(), 1);
  Outsider outsider(other.ledger());
  ASSERT_EQ(outsider.run("DROP TRIGGER entry_stays; DROP TRIGGER entry_remains; DROP TRIGGER entry_follows"), "");
  ASSERT_TRUE(opened(Ledger::open(other.ledger())).append(bodies_of(2, 2)));
  EXPECT_EQ(outsider.run("UPDATE entry SET body = '{}'"), kNeverChanged);
  EXPECT_EQ(outsider.run("DELETE FROM entry"), kNeverRemoved);
  EXPECT_EQ(outsider.run("REPLACE INTO entry VALUES(1, '{}', x'00')"), kFollows);
}

}  // namespace
}  // namespace tenth
