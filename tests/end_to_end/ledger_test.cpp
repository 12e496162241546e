// The ledger's file: its chain made again, its triggers tried, and what happens when somebody was at it.
#include <sys/stat.h>

#include <algorithm>
#include <csignal>
#include <fstream>
#include <sstream>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

class Ledger : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    gauge("g", {"--unit", "mm"});
    press_at({"bore"}, "g", line("70.010"));
    press_at({"piston"}, "g", line("69.950"));
    done({"undo"});
  }
  // A whole copy with this change made in it.
  std::filesystem::path copy_with(const std::string& change) {
    const std::filesystem::path copy = home_ / ("copy-" + std::to_string(++copies_) + ".db");
    copy_ledger(daemon_.ledger(), copy);
    if (change.empty()) return copy;
    drop_triggers(copy);
    const Ran ran = sql(copy, change, true);
    EXPECT_EQ(ran.status, 0) << change << ran.err;
    return copy;
  }
  static json audit(const std::filesystem::path& file, int status) {
    return asked({"audit", "--ledger", file}, status);
  }
  int copies_ = 0;
};

std::string bytes_of(const std::filesystem::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

// Sets the hashes of all rows from this one on as its body now wants them.
void rechain(const std::filesystem::path& file) {
  std::string hash = no_hash;
  std::string update = "BEGIN";
  for (const Entry& entry : entries(file)) {
    hash = link_hex(hash, sha256_hex(entry.body));
    update += "; UPDATE entry SET hash = x'" + hash + "' WHERE seq = " + std::to_string(entry.seq);
  }
  const Ran ran = sql(file, update + "; COMMIT", true);
  ASSERT_EQ(ran.status, 0) << ran.err;
}

TEST_F(Ledger, ItsChainMadeAgainIsWhatItHolds) {
  const auto rows = entries(daemon_.ledger());
  ASSERT_GT(rows.size(), 8U);
  std::string hash = no_hash;
  long long seq = 0;
  for (const Entry& entry : rows) {
    EXPECT_EQ(entry.seq, ++seq);
    hash = link_hex(hash, sha256_hex(entry.body));
    EXPECT_EQ(entry.hash, hash) << "row " << seq;
    const json body = entry.json();
    for (const char* key : {"kind", "time", "mono_ns", "boot", "salt", "by"})
      EXPECT_TRUE(body.contains(key)) << key << entry.body;
    EXPECT_EQ(body["salt"].get<std::string>().size(), 16U);
    EXPECT_EQ(body.dump(), entry.body) << "sorted keys, no blanks: the canonical form, where all is ASCII and whole";
  }
}

TEST_F(Ledger, AReadingsBodyNamesWhatItRestsOn) {
  const json body = entries_of_kind(daemon_.ledger(), "reading").at(0).json();
  for (const char* key : {"spec", "gauge_entry", "setting", "calibration", "place", "stage_entry", "temperature",
                          "operator_entry", "profile", "program", "arrived", "dropped", "value_pm", "size_pm", "raw",
                          "text", "engine", "feature", "state"}) {
    EXPECT_TRUE(body.contains(key)) << key;
  }
  EXPECT_EQ(body["value_pm"], 70010000000);
  EXPECT_EQ(body["by"]["via"], "gauge");
  EXPECT_EQ(body["profile"].get<std::string>().size(), 64U);
  const auto spec = entries(daemon_.ledger(), "seq = " + body["spec"].dump());
  EXPECT_EQ(spec.size(), 1U);
}

TEST_F(Ledger, TheFileItselfRefusesWhatIsNoAddition) {
  const auto before = entries(daemon_.ledger());
  const std::string last = std::to_string(before.back().seq);
  for (const std::string& change :
       {std::string("UPDATE entry SET body = '{}' WHERE seq = 2"), "DELETE FROM entry WHERE seq = " + last,
        std::string("DELETE FROM entry"),
        std::string("INSERT OR REPLACE INTO entry(seq, body, hash) VALUES (2, '{}', zeroblob(32))"),
        "REPLACE INTO entry(seq, body, hash) VALUES (" + last + ", '{}', zeroblob(32))",
        "INSERT INTO entry(seq, body, hash) VALUES (" + last + " + 2, '{}', zeroblob(32))",
        std::string("INSERT INTO entry(seq, body, hash) VALUES (0, '{}', zeroblob(32))"),
        std::string("INSERT INTO entry(seq, body, hash) VALUES (-1, '{}', zeroblob(32))"),
        std::string("UPDATE OR REPLACE entry SET seq = 1 WHERE seq = 2"),
        std::string("INSERT INTO entry(seq, body, hash) VALUES (3, '{}', zeroblob(32)) ON CONFLICT(seq) DO UPDATE SET "
                    "body = '{}'")}) {
    EXPECT_NE(sql(daemon_.ledger(), change, true).status, 0) << change;
  }
  const auto after = entries(daemon_.ledger());
  ASSERT_EQ(after.size(), before.size());
  for (std::size_t i = 0; i < after.size(); ++i) EXPECT_EQ(after[i].body, before[i].body);
}

TEST_F(Ledger, AuditFindsAWholeLedgerWhole) {
  const json live = audit(daemon_.ledger(), 0);
  EXPECT_EQ(live["ok"], true);
  EXPECT_EQ(live["entries"].get<std::size_t>(), entries(daemon_.ledger()).size());
  EXPECT_TRUE(live["first_bad"].is_null());
  EXPECT_TRUE(live["cannot_tell"].is_array());
  daemon_.stop();
  EXPECT_EQ(audit(daemon_.ledger(), 0)["ok"], true);
  EXPECT_EQ(audit(copy_with(""), 0)["ok"], true);
  const Entry last = entries(daemon_.ledger()).back();
  const std::string head = std::to_string(last.seq) + ":" + last.hash;
  done({"audit", "--ledger", daemon_.ledger(), "--head", head});
  EXPECT_EQ(tenth({"audit", "--ledger", copy_with("DELETE FROM entry WHERE seq = " + std::to_string(last.seq)),
                   "--head", head})
                .status,
            1);
}

TEST_F(Ledger, AuditNamesTheFirstBadRow) {
  json said = audit(copy_with("UPDATE entry SET body = replace(body, '70010000000', '70019000000') WHERE seq = "
                              "(SELECT min(seq) FROM entry WHERE body LIKE '%70010000000%')"),
                    1);
  EXPECT_EQ(said["ok"], false);
  EXPECT_EQ(said["first_bad"], entries_of_kind(daemon_.ledger(), "reading").at(0).seq);
  said = audit(copy_with("DELETE FROM entry WHERE seq = 4"), 1);
  EXPECT_TRUE(said["first_bad"] == 4 || said["first_bad"] == 5) << said;
  said = audit(copy_with("UPDATE entry SET hash = zeroblob(32) WHERE seq = 3"), 1);
  EXPECT_EQ(said["first_bad"], 3);
}

TEST_F(Ledger, AuditSeesABodyThatIsNotCanonical) {
  const std::filesystem::path copy = copy_with("UPDATE entry SET body = ' ' || body WHERE seq = 5");
  rechain(copy);
  const json said = audit(copy, 1);
  EXPECT_EQ(said["first_bad"], 5);
}

TEST_F(Ledger, AuditHoldsTheDerivedTablesAgainstTheEntries) {
  const Ran tables =
      sql(daemon_.ledger(),
          "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT IN ('entry') AND name NOT LIKE 'sqlite_%'");
  if (tables.out.empty()) return;  // nothing is derived
  for (const json& row : json::parse(tables.out)) {
    const std::string table = "\"" + row["name"].get<std::string>() + "\"";
    const Ran count = sql(daemon_.ledger(), "SELECT count(*) AS n FROM " + table);
    if (json::parse(count.out)[0]["n"] == 0) continue;
    EXPECT_EQ(audit(copy_with("DELETE FROM " + table), 1)["ok"], false) << table;
  }
}

TEST_F(Ledger, WhatIsNoLedgerCannotBeRead) {
  refused({"audit", "--ledger", home_ / "none.db"}, 4);
  refused({"audit", "--ledger", write("garbage.db", std::string(8192, 'g'))}, 4);
  refused({"audit", "--ledger", write("empty.db", "")}, 4);
  EXPECT_FALSE(std::filesystem::exists(home_ / "none.db")) << "looking does not make one";
}

// Starts a daemon that must refuse with this status and one line, and must leave the file as it is.
class Refusing : public Ledger {
 protected:
  void refuses(int status) {
    const std::string before = bytes_of(daemon_.ledger());
    const Ran ran = run(daemon_.command(), {}, Millis(8000));
    EXPECT_EQ(ran.status, status) << ran.err;
    EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1) << ran.err;
    EXPECT_TRUE(bytes_of(daemon_.ledger()) == before) << "the file was touched";
  }
  void replace_with(const std::filesystem::path& file) {
    daemon_.stop();
    for (const char* side : {"", "-wal", "-shm"}) std::filesystem::remove(daemon_.ledger().string() + side);
    std::filesystem::rename(file, daemon_.ledger());
  }
};

TEST_F(Refusing, ALedgerOfANewerVersion) {
  replace_with(copy_with("PRAGMA user_version = 9999"));
  refuses(4);
}

TEST_F(Refusing, ALedgerChangedWhileStopped) {
  replace_with(copy_with("UPDATE entry SET body = replace(body, '70010000000', '70019000000')"));
  refuses(1);
}

TEST_F(Refusing, ALedgerChangedInItsPlace) {
  daemon_.stop();
  drop_triggers(daemon_.ledger());
  ASSERT_EQ(sql(daemon_.ledger(), "UPDATE entry SET body = replace(body, '70010000000', '70019000000')", true).status,
            0);
  EXPECT_EQ(json::parse(sql(daemon_.ledger(), "PRAGMA journal_mode").out)[0]["journal_mode"], "wal");
  refuses(1);
}

TEST_F(Refusing, ALedgerWithARowTakenOut) {
  replace_with(copy_with("DELETE FROM entry WHERE seq = 4"));
  refuses(1);
}

TEST_F(Refusing, AFileOfGarbage) {
  const std::filesystem::path garbage = write("garbage", std::string(8192, 'g'));
  replace_with(garbage);
  refuses(4);
}

TEST_F(Refusing, ATruncatedFile) {
  const std::filesystem::path copy = copy_with("");
  std::filesystem::resize_file(copy, std::filesystem::file_size(copy) / 2);
  replace_with(copy);
  const std::string before = bytes_of(daemon_.ledger());
  const Ran ran = run(daemon_.command(), {}, Millis(8000));
  EXPECT_TRUE(ran.status == 1 || ran.status == 4) << ran.status << ran.err;
  EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1) << ran.err;
  EXPECT_TRUE(bytes_of(daemon_.ledger()) == before);
}

TEST_F(Refusing, ALedgerThatAnotherProgramWritesTo) {
  daemon_.stop();
  Child writer({"sqlite3", "-batch", daemon_.ledger()});
  writer.feed("BEGIN IMMEDIATE; SELECT 'mine';\n");
  ASSERT_EQ(writer.line(in(std::chrono::seconds(2))), "mine");
  const Ran ran = run(daemon_.command(), {}, Millis(15000));
  EXPECT_EQ(ran.status, 4) << ran.err;
  EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1) << ran.err;
}

TEST_F(Ledger, ANewLedgerNamesTheHeadOfTheFalseOne) {
  const std::filesystem::path bad = copy_with("UPDATE entry SET body = replace(body, '70010000000', '70019000000')");
  const Entry head = entries(bad).back();
  daemon_.stop();
  for (const char* side : {"", "-wal", "-shm"}) std::filesystem::remove(daemon_.ledger().string() + side);
  std::filesystem::rename(bad, daemon_.ledger());
  daemon_.start({"--new-ledger"});
  const auto rows = entries(daemon_.ledger());
  ASSERT_FALSE(rows.empty());
  EXPECT_EQ(rows[0].json()["kind"], "ledger");
  EXPECT_NE(rows[0].body.find(head.hash), std::string::npos) << rows[0].body;
  int kept = 0;
  for (const auto& file : std::filesystem::directory_iterator(daemon_.state())) {
    if (bytes_of(file.path()).find("70019000000") != std::string::npos) ++kept;
  }
  EXPECT_EQ(kept, 1) << "the false one is kept for whoever must look into it";
}

TEST_F(Ledger, DerivedTablesAreRebuiltAndNeverBelieved) {
  daemon_.stop();
  const json before = entries(daemon_.ledger()).size();
  const Ran tables =
      sql(daemon_.ledger(),
          "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT IN ('entry') AND name NOT LIKE 'sqlite_%'");
  if (tables.out.empty()) return;
  for (const json& row : json::parse(tables.out)) {
    ASSERT_EQ(sql(daemon_.ledger(), "DROP TABLE \"" + row["name"].get<std::string>() + "\"", true).status, 0);
  }
  daemon_.start();
  EXPECT_EQ(asked({"readings", "--all"}).size(), 2U);
  EXPECT_EQ(audit(daemon_.ledger(), 0)["ok"], true);
  EXPECT_GE(json(entries(daemon_.ledger()).size()), before);
}

}  // namespace
}  // namespace acceptance
