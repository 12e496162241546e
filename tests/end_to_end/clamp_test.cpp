// A bore gauge set in a micrometer, and what follows when the master was another size: written from the contract.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/csv.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/profile_text.hpp"

namespace acceptance {
namespace {

class Clamp : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    gauge("dial", {"--unit", "mm", "--reads", "deviation", "--measures", "inside", "--uncertainty", "0.003"});
    gauge("mic", {"--unit", "mm", "--measures", "outside", "--uncertainty", "0.004"});
    press_at({"piston"}, "mic", line("69.950"));
  }
  json set_in_mic() {
    done({"master", "dial", "--in", "mic"});
    cable("dial").send(line("0.002"));
    return watch_->next("setting");
  }
};

TEST_F(Clamp, SizesRestOnTheLastReadingAndUncertaintiesJoin) {
  const json setting = set_in_mic();
  EXPECT_EQ(setting["master_mm"], 69.95);
  EXPECT_EQ(setting["shown_mm"], 0.002);
  const json reading = press_at({"bore"}, "dial", line("0.062"));
  EXPECT_EQ(reading["size_mm"], 70.01);
  EXPECT_EQ(reading["value_mm"], 0.062);
  EXPECT_EQ(pick(asked({"check"})["features"], {{"feature", "bore"}})["uncertainty_mm"], 0.005);
  EXPECT_EQ(by_column(read_csv(done({"export", "--format", "csv"}))).size(), 2U) << "a setting is in no export row";
}

TEST_F(Clamp, TheCorrectedMasterMovesSizesAndVerdictsOnly) {
  const json setting = set_in_mic();
  const json reading = press_at({"bore"}, "dial", line("0.062"));
  watch_->forget();
  done({"master", "--correct", setting["seq"].dump(), "69.980", "mm", "--reason", "the other end"});
  EXPECT_EQ(watch_->next("change")["seq"], reading["seq"]);
  const json now = reading_of(asked({"readings", "--all"}), reading["seq"]);
  EXPECT_EQ(now["size_mm"], 70.04);
  for (const char* key : {"value_mm", "text", "raw"}) EXPECT_EQ(now[key], reading[key]) << key;
  EXPECT_EQ(pick(asked({"check"}, 1)["features"], {{"feature", "bore"}})["verdict"], "out");
}

TEST_F(Clamp, APlaceChosenMeanwhileEndsTheWaiting) {
  done({"master", "dial", "--in", "mic"});
  done({"at", "bore"});
  EXPECT_EQ(doubts_of(press("dial", line("0.002"))), "no_setting");
}

TEST_F(Clamp, ALiveGaugeIsClampedAtItsLastReadingNotAtWhatItShows) {
  gauge("live", {"--measures", "outside"}, write("c.toml", line_profile({.groups = continuous})));
  cable("live").send(line("69.951"));
  watch_->next("live");
  refused({"master", "dial", "--in", "live"}, 4);
  done({"take", "--gauge", "live"});
  watch_->next("reading");
  cable("live").send(line("69.999"));
  done({"master", "dial", "--in", "live"});
  cable("dial").send(line("0.002"));
  EXPECT_EQ(watch_->next("setting")["master_mm"], 69.951);
}

}  // namespace
}  // namespace acceptance
