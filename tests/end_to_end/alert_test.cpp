// Alerts: raised with the reading that turned the verdict, ended when the cause goes, cleared by a person.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

class Alert : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("g", {"--unit", "mm"});
  }
};

std::string as_word(const json& id) {
  return id.is_string() ? id.get<std::string>() : id.dump();
}

TEST_F(Alert, IsRaisedWithTheReadingThatTurnedTheVerdict) {
  const json good = press_at({"ring_gap_top", "1"}, "g", line("0.400"));
  EXPECT_EQ(asked({"alerts"}), json::array());
  const json reading = press_at({"ring_gap_top", "2"}, "g", line("0.520"));
  EXPECT_EQ(reading["verdict"], "out");
  const json event = watch_->next("alert");
  for (const char* key : {"id", "event", "time", "engine", "severity", "what", "subject", "text", "value_mm",
                          "limit_mm", "seqs", "state", "note", "cleared_by"}) {
    EXPECT_TRUE(event.contains(key)) << key;
  }
  EXPECT_EQ(event["what"], "out");
  EXPECT_EQ(event["severity"], "stop");
  EXPECT_EQ(event["state"], "open");
  EXPECT_EQ(event["engine"], "E1");
  EXPECT_EQ(event["value_mm"], 0.520);
  EXPECT_EQ(event["limit_mm"], 0.500);
  EXPECT_EQ(event["seqs"], json::array({reading["seq"]}));
  EXPECT_EQ(asked({"alerts"}).size(), 1U);
  EXPECT_FALSE(good.empty());
}

TEST_F(Alert, EndsWhenTheCauseGoesAndIsRaisedAnewIfItReturns) {
  press_at({"ring_gap_top", "2"}, "g", line("0.520"));
  const json first = watch_->next("alert");
  done({"undo"});
  const json ended = watch_->next("alert", [&](const json& event) { return event["id"] == first["id"]; });
  EXPECT_EQ(ended["state"], "ended");
  EXPECT_EQ(asked({"alerts"}), json::array());
  EXPECT_EQ(asked({"alerts", "--all"}).size(), 1U);
  press_at({"ring_gap_top", "2"}, "g", line("0.530"));
  const json second = watch_->next("alert");
  EXPECT_EQ(second["state"], "open");
  EXPECT_NE(second["id"], first["id"]);
}

TEST_F(Alert, IsOneForACauseHoweverOftenItIsMeasured) {
  press_at({"ring_gap_top", "2"}, "g", line("0.520"));
  press_at({"ring_gap_top", "2"}, "g", line("0.521"));
  press_at({"ring_gap_top", "2"}, "g", line("0.522"));
  EXPECT_EQ(asked({"alerts", "--all"}).size(), 1U);
  press_at({"ring_gap_top", "3"}, "g", line("0.522"));
  EXPECT_EQ(asked({"alerts"}).size(), 2U);
}

TEST_F(Alert, ClearingChangesNoVerdict) {
  done({"operator", "add", "Ada"});
  done({"operator", "use", "Ada"});
  press_at({"ring_gap_top", "2"}, "g", line("0.520"));
  const json raised = watch_->next("alert");
  done({"alerts", "clear", as_word(raised["id"]), "--note", "will use the other ring set"});
  const json cleared = watch_->next("alert");
  EXPECT_EQ(cleared["state"], "cleared");
  EXPECT_EQ(cleared["note"], "will use the other ring set");
  EXPECT_FALSE(cleared["cleared_by"].is_null());
  EXPECT_EQ(asked({"alerts"}), json::array());
  EXPECT_EQ(asked({"check"}, 1)["verdict"], "out");
  refused({"alerts", "clear", as_word(raised["id"]), "--note", "again"}, 4);
}

TEST_F(Alert, AnswersZeroEvenWhenSomethingIsOut) {
  press_at({"ring_gap_top", "2"}, "g", line("0.520"));
  EXPECT_NE(done({"alerts"}).find("ring_gap_top"), std::string::npos);
}

TEST_F(Alert, ASuspectReadingRaisesOneThatEndsWithIt) {
  const json lost = press("g", line("86.010"));
  const json raised = watch_->next("alert");
  EXPECT_EQ(raised["what"], "suspect");
  EXPECT_EQ(raised["seqs"], json::array({lost["seq"]}));
  done({"move", lost["seq"].dump(), "bore", "1", "top", "pin", "--reason", "place not chosen"});
  EXPECT_EQ(watch_->next("alert")["state"], "ended");
}

TEST_F(Alert, APressBeforeItsQuestionIsAnswered) {
  press_at({"piston", "1"}, "g", line("85.950"));
  const json raised = watch_->next("alert");
  EXPECT_NE((raised["subject"].dump() + raised["text"].dump()).find("oil_feed_clear"), std::string::npos) << raised;
  EXPECT_EQ(raised["state"], "open");
  done({"at", "oil_feed_clear"});
  done({"enter", "yes"});
  EXPECT_EQ(watch_->next("alert", [&](const json& event) { return event["id"] == raised["id"]; })["state"], "ended");
}

TEST_F(Alert, AnAnsweredQuestionRaisesNothing) {
  done({"at", "oil_feed_clear"});
  done({"enter", "yes"});
  press_at({"piston", "1"}, "g", line("85.950"));
  press_at({"piston", "2"}, "g", line("85.950"));
  EXPECT_EQ(asked({"alerts", "--all"}), json::array());
}

TEST_F(Alert, StandsInTheLedgerAfterItsReading) {
  const json reading = press_at({"ring_gap_top", "2"}, "g", line("0.520"));
  watch_->next("alert");
  const auto rows = entries_of_kind(daemon_.ledger(), "alert");
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_GT(rows[0].seq, reading["seq"].get<long long>());
}

}  // namespace
}  // namespace acceptance
