#include "daemon/opening.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "schema/json/json.hpp"
#include "tests/support/folder.hpp"

namespace tenth {
namespace {

namespace fs = std::filesystem;

class Opening : public testing::Test {
 protected:
  Result<Opened> open(bool anew = false) { return open_ledger(state, anew, clock, {"tester", 0, "daemon"}); }
  void append(const Json& body) {
    auto ledger = Ledger::open(state / "ledger.db").value();
    ASSERT_TRUE(ledger.append(std::vector{canonical(body)}));
  }
  SystemClock clock;
  Folder folder;
  const fs::path& state = folder.path();
};

TEST_F(Opening, ANewLedgerBeginsWithItsIdAndTheStart) {
  const auto opened = open();
  ASSERT_TRUE(opened) << opened.error().message;
  EXPECT_EQ(opened->bench.seq, 2);
  EXPECT_EQ(opened->bench.id.size(), 32U);
  EXPECT_EQ(opened->head_hash, hex(opened->ledger.head().hash));
}

TEST_F(Opening, EveryStartIsAnEntryAndTheIdStays) {
  const std::string id = open()->bench.id;
  const auto again = open();
  ASSERT_TRUE(again);
  EXPECT_EQ(again->bench.id, id);
  EXPECT_EQ(again->bench.seq, 3);
}

TEST_F(Opening, AKindOfALaterVersionIsNewerNotFalse) {
  ASSERT_TRUE(open());
  append({{"kind", "hologram"}, {"time", "2026-01-02T03:04:05.000000Z"}});
  const auto refused = open();
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, "ledger_newer");
  EXPECT_EQ(refused.error().exit, Exit::refused);
}

TEST_F(Opening, AFormatOfALaterVersionIsRefused) {
  append({{"kind", "ledger"}, {"id", "00"}, {"format", 2}, {"time", "2026-01-02T03:04:05.000000Z"}});
  EXPECT_EQ(open().error().code, "ledger_newer");
}

TEST_F(Opening, AKnownKindThatNoVersionWroteIsFalse) {
  ASSERT_TRUE(open());
  append({{"kind", "void"}, {"seqs", {77}}, {"reason", "x"}, {"time", "2026-01-02T03:04:05.000000Z"}});
  const auto refused = open();
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().exit, Exit::no);
}

TEST_F(Opening, AnotherLedgerNamesTheHeadOfTheOneBefore) {
  const std::string head = open()->head_hash;
  const auto anew = open(true);
  ASSERT_TRUE(anew) << anew.error().message;
  const auto rows = anew->ledger.rows(1, 1).value();
  EXPECT_EQ(Json::parse(rows.front().body)["previous_head"]["hash"], head);
  EXPECT_TRUE(fs::exists(state / "ledger.db.old1"));
}

TEST_F(Opening, AStateDirectoryHasOneDaemon) {
  const auto first = StateLock::take(state);
  ASSERT_TRUE(first);
  EXPECT_EQ(StateLock::take(state).error().code, "state_locked");
}

TEST_F(Opening, AStateDirectoryIsFreeAgainAfterwards) {
  {
    ASSERT_TRUE(StateLock::take(state));
  }
  EXPECT_TRUE(StateLock::take(state));
}

TEST_F(Opening, AStateDirectoryIsMadeForTheUserAlone) {
  const fs::path made = state / "a" / "b";
  ASSERT_TRUE(StateLock::take(made));
  EXPECT_EQ(fs::status(made).permissions(), fs::perms::owner_all);
}

TEST_F(Opening, ALedgerBegunAnewKeepsEveryOneBefore) {
  ASSERT_TRUE(open());
  ASSERT_TRUE(open(true));
  const auto third = open(true);
  ASSERT_TRUE(third) << third.error().message;
  EXPECT_EQ(third->bench.seq, 2);
  EXPECT_TRUE(fs::exists(state / "ledger.db.old1"));
  EXPECT_TRUE(fs::exists(state / "ledger.db.old2"));
}

}  // namespace
}  // namespace tenth
