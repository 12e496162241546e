// Another shop's figures: shown and exported, never judged; where ours differ, an alert says so.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/csv.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Claim : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("g", {"--unit", "mm", "--uncertainty", "0.002 mm"});
  }
  json claim(const std::string& index, const std::string& value) const {
    const auto file = write("claim.csv", "feature,index,value\r\nmain_journal," + index + "," + value + "\r\n");
    const json answer = asked({"import", file, "--claimed-by", "the grinder"});
    watch_->next("reading", [](const json& event) { return event["state"] == "claimed"; });
    return reading_of(asked({"readings", "--all"}), answer["seqs"][0]);
  }
  json ours(const std::string& index, const std::string& value) {
    return press_at({"main_journal", index}, "g", line(value));
  }
  static json claims() {
    json found = json::array();
    for (const json& alert : asked({"alerts", "--all"})) {
      if (alert["what"] == "claim") found.push_back(alert);
    }
    return found;
  }
  static json journal(int index) {
    return pick(asked({"check"})["features"], {{"feature", "main_journal"}, {"index", index}});
  }
};

TEST_F(Claim, IsShownAndNeverJudged) {
  const json wild = claim("1", "53.000");
  EXPECT_EQ(wild["state"], "claimed");
  EXPECT_EQ(wild["claimed_by"], "the grinder");
  EXPECT_EQ(wild["counts"], false);
  EXPECT_EQ(doubts_of(wild), "");
  EXPECT_EQ(journal(1)["verdict"], "incomplete");
  EXPECT_EQ(journal(1)["readings"], 0);
  EXPECT_EQ(asked({"readings"}), json::array());
  EXPECT_EQ(asked({"alerts"}), json::array());
  refused({"keep", wild["seq"].dump(), "--reason", "trust them"}, 4);
}

TEST_F(Claim, ApartByMoreThanTheUncertaintyRaisesOneAlert) {
  ours("1", "53.990");
  claim("1", "53.992");
  EXPECT_EQ(claims(), json::array()) << "apart by U, not by more";
  claim("1", "53.9921");
  ASSERT_EQ(claims().size(), 1U);
  EXPECT_EQ(claims()[0]["state"], "open");
  EXPECT_EQ(claims()[0]["severity"], "look");
  claim("1", "53.9922");
  EXPECT_EQ(claims().size(), 1U) << "one for each subject";
  EXPECT_EQ(journal(1)["verdict"], "in");
}

TEST_F(Claim, OurReadingThatComesLaterRaisesItToo) {
  claim("2", "53.980");
  EXPECT_EQ(claims(), json::array());
  ours("2", "53.990");
  const json alert = watch_->next("alert", [](const json& one) { return one["what"] == "claim"; });
  EXPECT_EQ(alert["state"], "open");
}

TEST_F(Claim, TheAlertEndsWhenEitherIsVoid) {
  ours("1", "53.990");
  const json theirs = claim("1", "53.980");
  done({"void", theirs["seq"].dump(), "--reason", "wrong sheet"});
  EXPECT_EQ(claims()[0]["state"], "ended");
  claim("2", "53.980");
  const json mine = ours("2", "53.990");
  done({"void", mine["seq"].dump(), "--reason", "wrong journal"});
  ASSERT_EQ(claims().size(), 2U);
  EXPECT_EQ(claims()[1]["state"], "ended");
}

TEST_F(Claim, AnotherStageIsNotCompared) {
  ours("1", "53.990");
  done({"stage", "after grinding", "main_journal"});
  claim("1", "53.900");
  EXPECT_EQ(claims(), json::array());
}

TEST_F(Claim, ExportsCarryItAndTheRecordIsTrue) {
  ours("1", "53.990");
  const json theirs = claim("1", "53.980");
  const auto row = by_column(read_csv(done({"export", "--format", "csv"}))).at(1);
  EXPECT_EQ(row.at("seq"), theirs["seq"].dump());
  EXPECT_EQ(row.at("state"), "claimed");
  EXPECT_EQ(row.at("claimed_by"), "the grinder");
  const auto record = home_ / "record.json";
  done({"export", "--format", "json", "--output", record});
  EXPECT_EQ(asked({"audit", "--record", record, "--ledger", daemon_.ledger()})["ok"], true);
  EXPECT_NE(done({"export", "--format", "html"}).find("the grinder"), std::string::npos);
  EXPECT_EQ(daemon_.stop(), 0);
  const json before = theirs;
  daemon_.start();
  EXPECT_EQ(reading_of(asked({"readings", "--all"}), theirs["seq"]), before);
}

TEST_F(Claim, NeedsAName) {
  refused({"import", write("c.csv", "feature,index,value\r\nmain_journal,1,53.980\r\n"), "--claimed-by", ""}, 2);
}

}  // namespace
}  // namespace acceptance
