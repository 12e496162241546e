#include <gtest/gtest.h>

#include <filesystem>
#include <map>
#include <sstream>

#include "cli/audit_run.hpp"
#include "cli/files.hpp"
#include "schema/export/exports.hpp"
#include "tests/cli/program.hpp"
#include "tests/cli/small_ledger.hpp"

// `audit` works without a daemon: none of these tests has one.

namespace tenth::cli {
namespace {

class AuditTest : public testing::Test {
 protected:
  Outcome audit(std::vector<std::string> more) {
    more.insert(more.begin(), {"audit", "--ledger", ledger.file()});
    return run_program(more);
  }
  std::string record_file() {
    const auto text = record(ledger.rows(), "K31", "2026-03-01T09:00:00.000000Z", "Ada").value();
    EXPECT_TRUE(write_text(ledger.beside("k31.json"), text));
    return ledger.beside("k31.json");
  }
  SmallLedger ledger;
};

TEST_F(AuditTest, OfAWholeLedgerSaysSoAndWhatItCannotTell) {
  const auto outcome = audit({"--json"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  const auto found = outcome.json();
  EXPECT_EQ(found.size(), 6U);
  EXPECT_EQ(found.at("ok"), true);
  EXPECT_EQ(found.at("entries"), 5);
  EXPECT_EQ(found.at("head"), (Json{{"seq", 5}, {"hash", hex(ledger.head().hash)}}));
  EXPECT_EQ(found.at("first_bad"), nullptr);
  EXPECT_EQ(found.at("why"), nullptr);
  EXPECT_EQ(found.at("cannot_tell").size(), 2U);
}

TEST_F(AuditTest, IsReadByAPerson) {
  const auto lines = lines_of(audit({}).out);
  ASSERT_GE(lines.size(), 3U);
  EXPECT_EQ(lines[0], "+ whole    5 entries");
  EXPECT_EQ(lines[1], "  head     " + printed(ledger.head()));
  EXPECT_EQ(lines[2], "  cannot tell whether entries were cut off the end");
}

TEST_F(AuditTest, FindsAChangedBody) {
  ledger.tamper("UPDATE entry SET body = replace(body, 'Ada', 'Eve') WHERE seq = 2");
  const auto outcome = audit({"--json"});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_EQ(outcome.json().at("ok"), false);
  EXPECT_EQ(outcome.json().at("first_bad"), 2);
  EXPECT_TRUE(outcome.json().at("why").is_string());
  EXPECT_TRUE(audit({}).out.starts_with("! false"));
}

TEST_F(AuditTest, FindsAMissingRow) {
  ledger.tamper("DELETE FROM entry WHERE seq = 3");
  EXPECT_EQ(audit({"--json"}).json().at("first_bad"), 3);
}

TEST_F(AuditTest, LeavesALaterVersionsEntriesToThatVersion) {
  ledger.append("never", {{"a", 1}});
  const auto outcome = audit({"--json"});
  EXPECT_EQ(outcome.exit, 4);
  EXPECT_NE(outcome.err.find("newer version"), std::string::npos) << outcome.err;
}

TEST_F(AuditTest, FindsAWellChainedEntryThatTenthNeverWrote) {
  ledger.append("void", {{"seqs", {77}}, {"reason", "x"}});
  const auto outcome = audit({"--json"});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_EQ(outcome.json().at("first_bad"), 6);
}

TEST_F(AuditTest, HoldsThePrintedHeadAgainstTheLedger) {
  const auto head = printed(ledger.head());
  ledger.append("operator", {{"name", "Ben"}, {"user", nullptr}});
  const auto same = audit({"--head", head, "--json"});
  EXPECT_EQ(same.exit, 0) << same.out;
  EXPECT_EQ(same.json().at("cannot_tell").size(), 1U);
  EXPECT_EQ(audit({"--head", "5:" + std::string(64, '0')}).exit, 1);
  EXPECT_EQ(audit({"--head", "9" + head.substr(1)}).exit, 1);  // a row that was cut off
}

TEST_F(AuditTest, TakesOnlyAWholeHead) {
  for (const auto* head : {"5", "5:", ":ab", "5:abcd", "0:0000", "x:y", ""}) {
    const auto outcome = audit({"--head", std::string(head) + " "});
    EXPECT_EQ(outcome.exit, 2) << head;
  }
}

TEST_F(AuditTest, ReadsARecordWithoutALedger) {
  const auto file = record_file();
  const auto outcome = run_program({"audit", "--record", file, "--json"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(outcome.json().at("head").at("seq"), 5);
  EXPECT_EQ(run_program({"audit", "--record", file, "--head", printed(ledger.head())}).exit, 0);
  EXPECT_EQ(run_program({"audit", "--record", file, "--head", "5:" + std::string(64, '0')}).exit, 1);
  const auto other = run_program({"audit", "--record", file, "--head", "6:" + std::string(64, '0'), "--json"});
  EXPECT_EQ(other.exit, 0);
  EXPECT_NE(other.json().at("cannot_tell").dump().find("entry 6"), std::string::npos);
}

TEST_F(AuditTest, HoldsARecordAgainstTheLedger) {
  const auto file = record_file();
  EXPECT_EQ(audit({"--record", file}).exit, 0);
  const SmallLedger other;
  EXPECT_EQ(run_program({"audit", "--ledger", other.file(), "--record", file}).exit,
            0);  // the same rows, the same head
  ledger.tamper("DELETE FROM entry WHERE seq = 5");
  EXPECT_EQ(audit({"--record", file}).exit, 1);
}

TEST_F(AuditTest, FindsAFalseRecordBesideAWholeLedger) {
  const auto file = record_file();
  auto text = read_text(file, 1 << 20).value();
  text.replace(text.find("Demo single"), 4, "Fine");
  ASSERT_TRUE(write_text(file, text));
  const auto outcome = audit({"--record", file, "--json"});
  EXPECT_EQ(outcome.exit, 1) << outcome.out;
  EXPECT_NE(outcome.json().at("why").get<std::string>().find("record"), std::string::npos);
  EXPECT_EQ(run_program({"audit", "--record", file}).exit, 1);
}

TEST_F(AuditTest, FindsWhatARecordWithholdsOfItsEngine) {
  const std::string before = record_file();
  Json told = Json::parse(read_text(before, 1 << 20).value());
  ledger.append("engine_use", {{"engine", "K31"}});
  Json after = Json::parse(read_text(record_file(), 1 << 20).value());
  Json& last = after["entries"].back();
  last = {{"seq", last["seq"]}, {"digests", hex(sha256(last["body"].get<std::string>()))}};
  after["readings"] = told["readings"];
  after["check"] = told["check"];
  const std::string file = ledger.beside("withholding.json");
  ASSERT_TRUE(write_text(file, after.dump()));
  const auto alone = run_program({"audit", "--json", "--record", file});
  EXPECT_EQ(alone.exit, 0) << "which nobody can tell without the ledger";
  EXPECT_NE(alone.json().at("cannot_tell").dump().find("by their digests alone"), std::string::npos);
  const auto beside = audit({"--json", "--record", file});
  EXPECT_EQ(beside.exit, 1);
  EXPECT_EQ(beside.json().at("first_bad"), 6);
}

TEST_F(AuditTest, HoldsAPrintedHeadOfAnyEntryAgainstARecord) {
  const std::string file = record_file();
  const auto held = [&](std::int64_t seq, const Digest& hash) {
    return run_program({"audit", "--json", "--record", file, "--head", std::to_string(seq) + ":" + hex(hash)}).exit;
  };
  for (const Row& row : ledger.rows()) {
    EXPECT_EQ(held(row.seq, row.hash), 0);
    EXPECT_EQ(held(row.seq, sha256("another")), 1);
  }
  EXPECT_EQ(held(99, sha256("another")), 0) << "beyond what the record has: nobody can tell";
}

TEST_F(AuditTest, OfWhatCannotBeReadIsRefused) {
  EXPECT_EQ(run_program({"audit", "--ledger", "/nowhere/ledger.db"}).exit, 4);
  EXPECT_EQ(run_program({"audit", "--record", "/nowhere/k31.json"}).exit, 4);
  ASSERT_TRUE(write_text(ledger.beside("junk"), "junk, and more of it"));
  EXPECT_EQ(run_program({"audit", "--ledger", ledger.beside("junk")}).exit, 4);
  EXPECT_EQ(run_program({"audit", "--record", ledger.beside("junk")}).exit, 4);
  EXPECT_EQ(audit({"--record", "/nowhere/k31.json"}).exit, 4);
}

TEST_F(AuditTest, LooksInTheStateDirectoryByDefault) {
  const auto state = ledger.beside("state");
  std::filesystem::create_directories(state + "/tenth");
  std::filesystem::copy(ledger.file(), state + "/tenth/ledger.db");
  EXPECT_EQ(run_program({"audit"}, {.environment = {{"XDG_STATE_HOME", state}}}).exit, 0);
  const auto absent = run_program({"audit"}, {.environment = {{"XDG_STATE_HOME", "/nowhere"}}});
  EXPECT_EQ(absent.exit, 4);
  EXPECT_NE(absent.err.find("/nowhere/tenth/ledger.db"), std::string::npos) << absent.err;
}

TEST(DefaultLedger, FollowsTheEnvironment) {
  const auto at = [](const std::map<std::string, std::string>& environment) {
    std::istringstream in;
    std::ostringstream out, err;
    return default_ledger({in, out, err, false, false, false, [&](const std::string& name) {
                             const auto found = environment.find(name);
                             return found == environment.end() ? std::string() : found->second;
                           }});
  };
  EXPECT_EQ(at({{"XDG_STATE_HOME", "/s"}, {"HOME", "/h"}}), "/s/tenth/ledger.db");
  EXPECT_EQ(at({{"HOME", "/h"}}), "/h/.local/state/tenth/ledger.db");
  EXPECT_EQ(at({}), "/var/lib/tenth/ledger.db");
}

}  // namespace
}  // namespace tenth::cli
