#include "schema/store/audit.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/schema/store_support.hpp"

namespace tenth {
namespace {

constexpr int kEntries = 6;
constexpr auto kWithoutGuards = "DROP TRIGGER entry_stays; DROP TRIGGER entry_remains; DROP TRIGGER entry_follows;";

Finding found(const std::filesystem::path& file) {
  const auto finding = audit_ledger(opened(Ledger::open_read_only(file)));
  EXPECT_TRUE(finding) << finding.error().message;
  return finding.value_or(Finding{});
}

/// What an audit says of six good entries after these statements.
Finding after(const std::string& statements) {
  const LedgerFolder folder;
  make_ledger(folder.ledger(), kEntries);
  EXPECT_EQ(Outsider(folder.ledger()).run(kWithoutGuards + statements), "") << statements;
  return found(folder.ledger());
}

void expect_bad(const std::string& statements, std::int64_t first_bad, std::string_view why) {
  const Finding finding = after(statements);
  EXPECT_FALSE(finding.ok) << statements;
  EXPECT_EQ(finding.first_bad, first_bad) << statements;
  EXPECT_EQ(finding.why, "row " + std::to_string(first_bad) + " " + std::string(why)) << statements;
  EXPECT_EQ(finding.entries, first_bad - 1) << "the good ones before it";
  EXPECT_EQ(finding.head.seq, first_bad - 1);
}

constexpr auto kHash = "has a hash that does not follow from its body and the row before";
constexpr auto kMissing = "is missing";

TEST(Audit, FindsAGoodLedgerWhole) {
  const Finding finding = after("");
  EXPECT_TRUE(finding.ok);
  EXPECT_EQ(finding.entries, kEntries);
  EXPECT_EQ(finding.head.seq, kEntries);
  EXPECT_EQ(finding.first_bad, std::nullopt);
  EXPECT_EQ(finding.why, "");
}

TEST(Audit, FindsAnEmptyLedgerWhole) {
  const LedgerFolder folder;
  {
    const Ledger empty = opened(Ledger::open(folder.ledger()));
  }
  const Finding finding = found(folder.ledger());
  EXPECT_TRUE(finding.ok);
  EXPECT_EQ(finding.entries, 0);
  EXPECT_EQ(finding.head.hash, Digest{});
}

TEST(Audit, ShowsEveryGoodRowInOrder) {
  const LedgerFolder folder;
  make_ledger(folder.ledger(), 1'234);  // more than two chunks
  int n = 0;
  const auto finding = audit_ledger(opened(Ledger::open_read_only(folder.ledger())), [&](const Row& row) {
    ASSERT_EQ(row.seq, ++n);
    ASSERT_EQ(row.body, body_of(n));
  });
  ASSERT_TRUE(finding);
  EXPECT_TRUE(finding->ok);
  EXPECT_EQ(n, 1'234);
}

TEST(Audit, FindsEveryRowThatWasChanged) {
  for (int seq = 1; seq <= kEntries; ++seq) {
    const std::string where = " WHERE seq = " + std::to_string(seq);
    expect_bad("UPDATE entry SET body = replace(body, 'note', 'nose')" + where, seq, kHash);
    expect_bad("UPDATE entry SET body = substr(body, 1, length(body) - 1)" + where, seq, kHash);
    expect_bad("UPDATE entry SET body = ''" + where, seq, kHash);
    expect_bad("UPDATE entry SET body = body || ' '" + where, seq, kHash);
    expect_bad("UPDATE entry SET body = CAST(body AS BLOB)" + where, seq, kHash);
    expect_bad("UPDATE entry SET hash = zeroblob(32)" + where, seq, kHash);
    expect_bad("UPDATE entry SET hash = substr(hash, 1, 31)" + where, seq, kHash);
    expect_bad("UPDATE entry SET hash = hash || x'00'" + where, seq, kHash);
    expect_bad("UPDATE entry SET hash = hex(hash)" + where, seq, kHash);
  }
}

TEST(Audit, FindsEveryRowThatWasTaken) {
  for (int seq = 1; seq < kEntries; ++seq) {
    expect_bad("DELETE FROM entry WHERE seq = " + std::to_string(seq), seq, kMissing);
  }
  expect_bad("DELETE FROM entry WHERE seq IN (2, 4)", 2, kMissing);
}

TEST(Audit, FindsATakenRowThatTheOthersCloseUpOn) {
  for (int seq = 1; seq < kEntries; ++seq) {
    expect_bad("DELETE FROM entry WHERE seq = " + std::to_string(seq) +
                   "; UPDATE entry SET seq = seq - 1 WHERE seq > " + std::to_string(seq),
               seq, kHash);
  }
}

TEST(Audit, FindsEveryPairThatWasSwapped) {
  for (int seq = 1; seq < kEntries; ++seq) {
    const std::string a = std::to_string(seq), b = std::to_string(seq + 1);
    expect_bad("UPDATE entry SET seq = -1 WHERE seq = " + a + "; UPDATE entry SET seq = " + a + " WHERE seq = " + b +
                   "; UPDATE entry SET seq = " + b + " WHERE seq = -1",
               seq, kHash);
  }
}

TEST(Audit, FindsRowsThatWereAdded) {
  expect_bad("INSERT INTO entry VALUES(7, '{\"kind\":\"note\",\"time\":\"2026\"}', zeroblob(32))", 7, kHash);
  expect_bad("INSERT INTO entry SELECT 7, body, hash FROM entry WHERE seq = 6", 7, kHash);
  expect_bad("INSERT INTO entry VALUES(9223372036854775807, '{}', zeroblob(32))", 7, kMissing);
  expect_bad("INSERT INTO entry VALUES(0, '{}', zeroblob(32))", 1, "has a row numbered 0 before it");
  expect_bad("INSERT INTO entry VALUES(-9223372036854775807, '{}', x'')", 1,
             "has a row numbered -9223372036854775807 before it");
}

TEST(Audit, CannotTellACutTailButAHeadFromElsewhereCan) {
  const LedgerFolder folder;
  make_ledger(folder.ledger(), kEntries);
  const Head head = opened(Ledger::open_read_only(folder.ledger())).head();
  ASSERT_EQ(Outsider(folder.ledger()).run(std::string(kWithoutGuards) + "DELETE FROM entry WHERE seq > 4"), "");
  EXPECT_TRUE(found(folder.ledger()).ok);
  EXPECT_EQ(found(folder.ledger()).entries, 4);
  const Ledger cut = opened(Ledger::open_read_only(folder.ledger()));
  EXPECT_EQ(has_head(cut, head.seq, head.hash), false);
  EXPECT_EQ(has_head(cut, 4, cut.head().hash), true);
  EXPECT_EQ(has_head(cut, 3, cut.head().hash), false);
  EXPECT_EQ(has_head(cut, 4, Digest{}), false);
}

/// What an audit says of one entry with this body and the hash that follows from it.
std::string why_of_body(const std::string& body) {
  const LedgerFolder folder;
  Ledger ledger = opened(Ledger::open(folder.ledger()));
  EXPECT_TRUE(ledger.append(std::vector{body}));
  return found(folder.ledger()).why;
}

TEST(Audit, FindsBodiesThatAreNotInTheCanonicalForm) {
  EXPECT_EQ(why_of_body(R"({"kind":"note","time":"2026"})"), "");
  for (const char* body : {R"({"time":"2026","kind":"note"})", R"({"kind": "note","time":"2026"})",
                           R"({"kind":"note","time":"2026"} )", R"({"kind":"note","n":1.0,"time":"2026"})",
                           R"({"kind":"note","n":1e2,"time":"2026"})", R"({"kind":"n\u006fte","time":"2026"})"}) {
    EXPECT_EQ(why_of_body(body), "row 1 has a body that is not in the canonical form") << body;
  }
}

TEST(Audit, FindsBodiesThatAreNoEntries) {
  EXPECT_EQ(why_of_body("{"), "row 1 has a body that is not JSON");
  EXPECT_EQ(why_of_body(R"({"kind":"a","kind":"b","time":"2026"})"), "row 1 has a body that is not JSON");
  EXPECT_EQ(why_of_body("\"\xFF\""), "row 1 has a body that is not JSON");
  EXPECT_EQ(why_of_body("[]"), "row 1 has a body that is no JSON object");
  EXPECT_EQ(why_of_body(R"({"time":"2026"})"), "row 1 has a body without a kind");
  EXPECT_EQ(why_of_body(R"({"kind":"note"})"), "row 1 has a body without a time");
  EXPECT_EQ(why_of_body(R"({"kind":7,"time":"2026"})"), "row 1 has a body without a kind");
}

RC_GTEST_PROP(Audit, FindsAnyByteThatWasFlipped, ()) {
  const LedgerFolder folder;
  make_ledger(folder.ledger(), kEntries);
  const auto seq = *rc::gen::inRange(1, kEntries + 1);
  const bool in_hash = *rc::gen::arbitrary<bool>();
  const auto at = *rc::gen::inRange(1, in_hash ? 33 : static_cast<int>(body_of(seq).size()) + 1);
  const auto bit = *rc::gen::inRange(0, 8);
  Outsider outsider(folder.ledger());
  const std::string column = in_hash ? "hash" : "body";
  const std::string where = " WHERE seq = " + std::to_string(seq);
  std::string bytes = outsider.ask("SELECT hex(" + column + ") FROM entry" + where);
  const auto pair = static_cast<std::size_t>(2 * (at - 1));
  char flipped[3];
  std::snprintf(flipped, sizeof flipped, "%02X", std::stoi(bytes.substr(pair, 2), nullptr, 16) ^ (1 << bit));
  bytes.replace(pair, 2, flipped);
  const std::string type = in_hash ? "BLOB" : "TEXT";
  RC_ASSERT(outsider.run(kWithoutGuards + ("UPDATE entry SET " + column + " = CAST(x'" + bytes + "' AS " + type + ")") +
                         where) == "");
  const Finding finding = found(folder.ledger());
  RC_ASSERT(!finding.ok);
  RC_ASSERT(finding.first_bad == seq);
}

}  // namespace
}  // namespace tenth
