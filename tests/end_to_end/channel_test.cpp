// Several channels on one port are several gauges; a status letter says whether a value is good.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"
#include "tests/end_to_end/profile_text.hpp"

namespace acceptance {
namespace {

class Channel : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    done({"at", "bore"});
    file_ = write("p.toml", line_profile());
    gauge("a", {"--channel", "A"}, file_);
    done(add("b", "B"));
    watch_->next("gauge", [](const json& event) { return event["gauge"] == "b" && event["state"] == "open"; });
  }
  Words add(const std::string& name, const std::string& channel) {
    return {"gauge", "add", name, "--port", cable("a").port(), "--profile", file_, "--channel", channel};
  }
  std::filesystem::path file_;
};

TEST_F(Channel, EachFrameGoesToTheGaugeOfItsChannel) {
  cable("a").send("A:70.010\rB 70.011\rA 70.012\r");
  for (const auto& [name, text] : {std::pair{"a", "70.010"}, {"b", "70.011"}, {"a", "70.012"}}) {
    const json reading = watch_->next("reading");
    EXPECT_EQ(reading["gauge"], name);
    EXPECT_EQ(reading["text"], text);
    EXPECT_EQ(reading["state"], "kept");
  }
}

TEST_F(Channel, AChannelTwiceIsRefused) {
  refused(add("c", "B"), 4);
}

TEST_F(Channel, AFrameOfNobodyIsAFaultOnTheFirstGauge) {
  done({"gauge", "drop", "b"});
  cable("a").send("B:70.010\r");
  const json fault = watch_->next("fault");
  EXPECT_EQ(fault["gauge"], "a");
  EXPECT_EQ(fault["raw"], "B:70.010");
  EXPECT_EQ(asked({"readings", "--all"}), json::array());
}

TEST_F(Channel, ThePortIsGoneForAllOfThemAndOpenForAll) {
  watch_->forget();
  cable("a").unplug();
  const auto told = [&](const char* name, const char* state) {
    watch_->next("gauge", [&](const json& event) { return event["gauge"] == name && event["state"] == state; });
  };
  told("a", "gone");
  told("b", "gone");
  cable("a").plug();
  told("a", "open");
  told("b", "open");
  cable("a").send("B:70.010\r");
  EXPECT_EQ(watch_->next("reading")["gauge"], "b");
}

TEST_F(Channel, DroppingTheFirstLeavesTheOther) {
  done({"gauge", "drop", "a"});
  cable("a").send("B:70.010\r");
  EXPECT_EQ(watch_->next("reading")["gauge"], "b");
}

class Status : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    done({"at", "bore"});
  }
  void with(const std::string& status) {
    gauge("g", {}, write("p.toml", line_profile({.groups = "[status]\n" + status})));
  }
};

TEST_F(Status, OnlyTheGoodOnesAreReadings) {
  with("good = [\"\", \"K\"]\nwhy = { L = \"battery low\" }\n");
  EXPECT_EQ(press("g", line("70.010K"))["state"], "kept");
  EXPECT_EQ(press("g", line("70.010"))["state"], "kept");
  cable("g").send("70.011L\r");
  const json low = watch_->next("fault");
  EXPECT_EQ(low["why"], "status");
  EXPECT_EQ(low["text"], "battery low");
  EXPECT_EQ(low["raw"], "70.011L");
  cable("g").send("70.012Q\r");
  EXPECT_EQ(watch_->next("fault")["why"], "status");
  EXPECT_EQ(asked({"readings", "--all"}).size(), 2U);
}

TEST_F(Status, TheMissingOneIsNotGoodWhereTheProfileDoesNotSaySo) {
  with("good = [\"K\"]\n");
  cable("g").send("70.010\r");
  EXPECT_EQ(watch_->next("fault")["why"], "status");
}

TEST_F(Status, AReadingBesideABadOneIsDamaged) {
  with("");
  cable("g").send("70.010E\r70.010\r");
  EXPECT_EQ(doubts_of(watch_->next("reading")), "damaged");
}

}  // namespace
}  // namespace acceptance
