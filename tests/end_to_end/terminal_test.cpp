// What is asked at a terminal: the second value, and whether a stage is about all features.
#include "tests/end_to_end/terminal.hpp"

#include <csignal>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

class Asked : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    done({"gauge", "add", "feeler", "--port", "hand", "--profile", "line", "--measures", "gap", "--unit", "mm"});
    done({"at", "ring_gap_top", "1"});
    before_ = entries(daemon_.ledger()).size();
  }
  // The kinds of the entries that came since.
  std::vector<std::string> stored() const {
    std::vector<std::string> kinds;
    for (const Entry& entry : entries(daemon_.ledger(), "seq > " + std::to_string(before_)))
      kinds.push_back(entry.json()["kind"]);
    return kinds;
  }
  static inline const std::string again = "again";
  static inline const std::string all = "all features?";
  static inline const std::string end_of_input = "\x04", interrupt = "\x03";
  std::size_t before_ = 0;
};

TEST_F(Asked, EqualValuesAreStored) {
  Terminal terminal({"enter", "0.4070", "--gauge", "feeler"});
  terminal.answer(again, "0.407\n");
  EXPECT_EQ(terminal.join(), 0) << terminal.shown();
  const json readings = asked({"readings"});
  ASSERT_EQ(readings.size(), 1U);
  EXPECT_EQ(readings[0]["raw"], "0.4070");
}

TEST_F(Asked, DifferingValuesLeaveOnlyARefusalAndTheFirstIsNotShown) {
  Terminal terminal({"enter", "0.4070", "--gauge", "feeler"});
  terminal.answer(again, "0.470\n");
  EXPECT_EQ(terminal.join(), 4) << terminal.shown();
  EXPECT_EQ(stored(), std::vector<std::string>{"refused"});
  EXPECT_EQ(terminal.shown().find("0.4070"), std::string::npos) << terminal.shown();
  EXPECT_EQ(entries(daemon_.ledger()).back().body.find("0.4"), std::string::npos);
}

TEST_F(Asked, WithoutASecondValueNothingIsStored) {
  for (const std::string& keys :
       {end_of_input, std::string("\n"), std::string("abc\n"), std::string("0.407 furlong\n")}) {
    Terminal terminal({"enter", "0.407", "--gauge", "feeler"});
    terminal.answer(again, keys);
    EXPECT_EQ(terminal.join(), 2) << terminal.shown();
  }
  EXPECT_EQ(stored(), std::vector<std::string>{});
}

TEST_F(Asked, AnInterruptStoresNothing) {
  Terminal value({"enter", "0.407", "--gauge", "feeler"});
  value.answer(again, interrupt);
  EXPECT_EQ(value.join(), 128 + SIGINT) << value.shown();
  Terminal stage({"stage", "as left"});
  stage.answer(all, interrupt);
  EXPECT_EQ(stage.join(), 128 + SIGINT) << stage.shown();
  EXPECT_EQ(stored(), std::vector<std::string>{});
}

TEST_F(Asked, WordsThatAreNoLengthAreNotAskedAgain) {
  Terminal terminal({"enter", "0.40.7", "--gauge", "feeler"});
  EXPECT_EQ(terminal.join(), 2);
  EXPECT_EQ(terminal.shown().find(again), std::string::npos) << terminal.shown();
}

TEST_F(Asked, AnAnswerToACheckNeedsNoSecond) {
  done({"at", "oil_feed_clear"});
  Terminal terminal({"enter", "yes"});
  EXPECT_EQ(terminal.join(), 0) << terminal.shown();
  EXPECT_EQ(asked({"check"})["checks"][0]["answer"], "yes");
}

TEST_F(Asked, AStageOfAllFeaturesBeginsOnlyWithYes) {
  for (const std::string& keys : {std::string("n\n"), std::string("\n"), std::string("bore\n"), end_of_input}) {
    Terminal terminal({"stage", "as left"});
    terminal.answer(all, keys);
    EXPECT_EQ(terminal.join(), 4) << terminal.shown();
  }
  EXPECT_EQ(stored(), std::vector<std::string>{});

  Terminal terminal({"stage", "as left"});
  terminal.answer(all, "y\n");
  EXPECT_EQ(terminal.join(), 0) << terminal.shown();
  EXPECT_EQ(pick(asked({"check"})["features"], {{"feature", "bore"}})["stage"], "as left");
}

TEST_F(Asked, AStageOfNamedFeaturesIsNotAskedAbout) {
  Terminal terminal({"stage", "after honing", "bore"});
  EXPECT_EQ(terminal.join(), 0) << terminal.shown();
  EXPECT_EQ(terminal.shown().find(all), std::string::npos) << terminal.shown();
}

}  // namespace
}  // namespace acceptance
