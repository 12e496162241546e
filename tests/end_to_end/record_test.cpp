// The JSON record: its chain made again by other means, and what `audit --record` says of changed ones.
#include <fstream>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

class Record : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    done({"operator", "add", "Ada"});
    done({"operator", "use", "Ada"});
    engine(single, "other");
    gauge("g", {"--unit", "mm"});
    press_at({"bore"}, "g", line("70.010"));
    press_at({"piston"}, "g", line("69.950"));
    engine(single, "E1");
    press_at({"bore"}, "g", line("70.011"));
    press_at({"bore"}, "g", line("70.012"));
    done({"undo"});
    press_at({"ring_gap_top"}, "g", line("0.600"));
    file_ = home_ / "record.json";
    done({"export", "--format", "json", "--output", file_});
    record_ = json::parse(std::ifstream(file_));
  }
  json audit(const json& record, int status) {
    return asked({"audit", "--record", write("changed.json", record.dump())}, status);
  }

  std::filesystem::path file_;
  json record_;
};

// The hash at the head, from the bodies and digests that the record gives.
std::string head_of(const json& record) {
  std::string hash = no_hash;
  for (const json& entry : record["entries"]) {
    if (entry.contains("body")) {
      hash = link_hex(hash, sha256_hex(entry["body"].get<std::string>()));
      continue;
    }
    const std::string digests = entry["digests"];
    for (std::size_t i = 0; i < digests.size(); i += 64) hash = link_hex(hash, digests.substr(i, 64));
  }
  return hash;
}

// Changes the first body of this kind by putting one text in place of another.
void change(json& record, const std::string& kind, const std::string& from, const std::string& to) {
  for (json& entry : record["entries"]) {
    if (!entry.contains("body")) continue;
    std::string body = entry["body"];
    const std::size_t at = body.find(from);
    if (json::parse(body)["kind"] != kind || at == std::string::npos) continue;
    entry["body"] = body.replace(at, from.size(), to);
    return;
  }
  ADD_FAILURE() << "no body of kind " << kind << " with " << from;
}

TEST_F(Record, HasTheKeysOfTheContract) {
  EXPECT_EQ(record_["format"], "tenth-record");
  EXPECT_EQ(record_["version"], 1);
  EXPECT_EQ(record_["engine"], "E1");
  for (const char* key : {"ledger", "made_at", "made_by", "program", "entries", "head", "readings", "check"}) {
    EXPECT_TRUE(record_.contains(key)) << key;
  }
  EXPECT_EQ(record_["readings"], asked({"readings", "--all"}));
  const json check = asked({"check"}, 1);
  for (const char* key : {"engine", "spec", "features", "fits", "spreads", "checks", "verdict"}) {
    EXPECT_EQ(record_["check"][key], check[key]) << key;
  }
}

TEST_F(Record, ItsChainMadeAgainEndsInItsHead) {
  EXPECT_EQ(record_["head"]["hash"], head_of(record_));
  const auto rows = entries(daemon_.ledger(), "seq = " + record_["head"]["seq"].dump());
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_EQ(record_["head"]["hash"], rows[0].hash);
}

TEST_F(Record, ItsEntriesRunWithoutAGapAndLeaveTheOtherEngineOut) {
  long long next = 1;
  int left_out = 0;
  for (const json& entry : record_["entries"]) {
    EXPECT_EQ(entry["seq"], next);
    next += entry.contains("digests") ? static_cast<long long>(entry["digests"].get<std::string>().size() / 64) : 1;
    left_out += entry.contains("digests") ? 1 : 0;
    if (!entry.contains("body")) continue;
    const json body = json::parse(entry["body"].get<std::string>());
    EXPECT_TRUE(body["kind"] != "reading" || body["engine"] == "E1") << body;
  }
  EXPECT_EQ(next - 1, record_["head"]["seq"]);
  EXPECT_GT(left_out, 0);
  EXPECT_TRUE(record_["entries"][0].contains("body"));
}

TEST_F(Record, IsTheSameEveryTimeButForWhenItWasMade) {
  const std::filesystem::path again = home_ / "again.json";
  done({"export", "--engine", "E1", "--format", "json", "--output", again});
  json second = json::parse(std::ifstream(again));
  second["made_at"] = record_["made_at"];
  EXPECT_EQ(second, record_);
}

TEST_F(Record, IsVouchedForWithoutADaemon) {
  daemon_.stop();
  const json said = asked({"audit", "--record", file_});
  EXPECT_EQ(said["ok"], true);
  EXPECT_TRUE(said["first_bad"].is_null());
  EXPECT_TRUE(said["cannot_tell"].is_array());
  EXPECT_FALSE(said["head"].is_null());
  EXPECT_EQ(asked({"audit", "--record", file_, "--ledger", daemon_.ledger()})["ok"], true);
  const std::string head = record_["head"]["seq"].dump() + ":" + record_["head"]["hash"].get<std::string>();
  done({"audit", "--record", file_, "--head", head});
  const std::string other = record_["head"]["seq"].dump() + ":" + std::string(64, 'a');
  EXPECT_EQ(tenth({"audit", "--record", file_, "--head", other}).status, 1);
}

TEST_F(Record, AChangedBodyIsFalse) {
  json changed = record_;
  change(changed, "reading", "70.011", "70.019");
  const json said = audit(changed, 1);
  EXPECT_EQ(said["ok"], false);
  EXPECT_FALSE(said["why"].is_null());
}

TEST_F(Record, AChangedReadingWithAChainToMatchIsStillFalse) {
  json changed = record_;
  for (json& reading : changed["readings"]) {
    if (reading["text"] == "70.011") reading["size_mm"] = 70.019;
  }
  EXPECT_EQ(audit(changed, 1)["ok"], false);
}

TEST_F(Record, AChangedVerdictIsFalse) {
  json changed = record_;
  EXPECT_EQ(changed["check"]["verdict"], "out");
  changed["check"]["verdict"] = "in";
  EXPECT_EQ(audit(changed, 1)["ok"], false);
}

TEST_F(Record, AForgedChainIsGivenAwayByWhatItSays) {
  json changed = record_;  // the bytes of the frame say one thing, the number made of them another
  for (json& entry : changed["entries"]) {
    if (!entry.contains("body")) continue;
    json body = json::parse(entry["body"].get<std::string>());
    if (body["kind"] == "reading" && body.value("text", "") == "70.011") {
      std::string text = entry["body"];
      for (std::size_t at = text.find("70011000000"); at != std::string::npos; at = text.find("70011000000", at))
        text.replace(at, 11, "70019000000");
      entry["body"] = text;
    }
  }
  changed["head"]["hash"] = head_of(changed);
  EXPECT_EQ(audit(changed, 1)["ok"], false) << "`readings` and `check` still say 70.011";
}

TEST_F(Record, AnEntryTakenOutIsFalse) {
  json changed = record_;
  changed["entries"].erase(changed["entries"].size() - 1);
  EXPECT_EQ(audit(changed, 1)["ok"], false);
  changed = record_;
  for (json& entry : changed["entries"]) {  // hidden behind its digest, with the chain whole
    if (!entry.contains("body") || json::parse(entry["body"].get<std::string>())["kind"] != "reading") continue;
    entry = {{"seq", entry["seq"]}, {"digests", sha256_hex(entry["body"].get<std::string>())}};
    break;
  }
  EXPECT_EQ(audit(changed, 1)["ok"], false);
}

TEST_F(Record, BodiesThatAreNotCanonicalAreFalse) {
  json changed = record_;
  for (json& entry : changed["entries"]) {
    if (!entry.contains("body") || json::parse(entry["body"].get<std::string>())["kind"] != "reading") continue;
    entry["body"] = " " + entry["body"].get<std::string>();
    break;
  }
  changed["head"]["hash"] = head_of(changed);
  EXPECT_EQ(audit(changed, 1)["ok"], false);
}

TEST_F(Record, WhatCannotBeReadIsStatus4) {
  const std::string text = record_.dump();
  for (const std::string& file : {std::string(), std::string("{}"), text.substr(0, text.size() / 2),
                                  std::string("[1,2]"), std::string("\xff\xfe")}) {
    refused({"audit", "--record", write("broken.json", file)}, 4);
  }
  refused({"audit", "--record", home_ / "none.json"}, 4);
}

TEST_F(Record, OfAnotherLedgerDoesNotMatch) {
  daemon_.stop();
  std::filesystem::remove_all(daemon_.state());
  daemon_.start();
  EXPECT_EQ(tenth({"audit", "--record", file_, "--ledger", daemon_.ledger()}).status, 1);
}

}  // namespace
}  // namespace acceptance
