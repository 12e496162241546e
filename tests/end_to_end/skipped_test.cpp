// Places that a round passed by with `next`: told, and not counted as measured.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Skipped : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("mic", {"--unit", "mm"});
    done({"round", "main_journal"});
    watch_->forget();
  }
};

TEST_F(Skipped, OnlyWhatWasReadIsDone) {
  EXPECT_EQ(asked({"next"})["done"], 0);
  EXPECT_EQ(asked({"next"})["done"], 0);
  press("mic", line("53.990"));
  const json place = watch_->next("place", [](const json& event) { return event["index"] == 4; });
  EXPECT_EQ(place["done"], 1) << place;
  EXPECT_EQ(place["of"], 5);
}

TEST_F(Skipped, TheEndTellsHowManyWerePassedBy) {
  done({"next"});
  press("mic", line("53.990"));
  for (int i = 0; i < 3; ++i) done({"next"});
  const json end = watch_->next("place", [](const json& event) { return event["feature"].is_null(); });
  EXPECT_EQ(end["skipped"], 4) << end;
  EXPECT_NE(tenth({"status"}).out.find("4 places skipped"), std::string::npos);
}

TEST_F(Skipped, GoingBackAndMeasuringTakesOneOff) {
  for (int i = 0; i < 5; ++i) done({"next"});
  EXPECT_EQ(asked({"back"})["index"], 5);
  press("mic", line("53.990"));
  const json end =
      watch_->next("place", [](const json& event) { return event["feature"].is_null() && event["skipped"] == 4; });
  EXPECT_FALSE(end.empty());
}

}  // namespace
}  // namespace acceptance
