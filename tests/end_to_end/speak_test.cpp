// What is heard: `tenth speak` beside a real daemon, its words instead of sounds.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Heard : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("g", {"--unit", "mm"});
    done({"operator", "add", "Ada"});
    speak_ = std::make_unique<Child>(Words{tenth_path(), "--json", "speak"});
    // From its first words on nothing is missed.
    json first;
    for (int n = 0; first.is_null() && n < 100; ++n) {
      done({"at", "ring_gap_top", "1"});
      first = next(Millis(200));
    }
    ASSERT_FALSE(first.is_null()) << speak_->err;
    while (!next(Millis(300)).is_null()) {
    }
  }
  /// What is said next; null where nothing is.
  json next(Millis wait = std::chrono::seconds(15)) {
    const auto line = speak_->line(in(wait));
    return line ? json::parse(*line) : json();
  }

  std::unique_ptr<Child> speak_;
};

TEST_F(Heard, ARoundWithItsSlipsIsSpoken) {
  done({"round", "ring_gap_top"});
  EXPECT_EQ(next()["text"], "Next ring gap top one");
  press("g", line("0.400"));
  json said = next();
  EXPECT_EQ(said["sound"], "stored");
  EXPECT_EQ(said["text"].get<std::string>().substr(0, 44), "ring gap top one: zero point four zero zero.");
  EXPECT_TRUE(said["text"].get<std::string>().ends_with("Next ring gap top two")) << said;
  press("g", line("4.000"));
  said = next();
  EXPECT_EQ(said["sound"], "suspect");
  EXPECT_EQ(said["text"].get<std::string>().substr(0, 66),
            "Suspect. ring gap top two, four point zero zero zero: too far from")
      << said;
  press("g", line("0.520"));
  said = next();
  EXPECT_EQ(said["sound"], "out");
  EXPECT_EQ(said["rank"], "stop");
  EXPECT_EQ(said["text"].get<std::string>().substr(0, 53), "Stop. ring gap top two is out, twenty microns over. r")
      << said;
  done({"undo"});
  EXPECT_EQ(next()["text"], "Taken back. Next ring gap top two");
}

TEST_F(Heard, TheEndOfARoundHasASoundOfItsOwn) {
  done({"round", "ring_gap_top"});
  next();
  json said;
  for (int gap = 1; gap <= 4; ++gap) {
    press("g", line("0.40" + std::to_string(gap)));
    said = next();
  }
  EXPECT_EQ(said["sound"], "round_done");
  EXPECT_NE(said["text"].get<std::string>().find("The round is through"), std::string::npos) << said;
}

TEST_F(Heard, ADaemonThatRestartsIsFollowed) {
  daemon_.kill();
  EXPECT_EQ(next()["text"], "Stop. Tenth is gone: nothing is stored");
  daemon_.start();
  EXPECT_EQ(next()["text"].get<std::string>().substr(0, 13), "Tenth is back");
  restart_watch();
  done({"at", "ring_gap_top", "3"});
  json said;
  for (std::string text; text.find("Next ring gap top three") == std::string::npos;
       text = said["text"].is_string() ? said["text"] : "") {
    said = next();
    ASSERT_FALSE(said.is_null()) << speak_->err;
  }
  speak_->signal(SIGTERM);
  EXPECT_EQ(speak_->join(in(std::chrono::seconds(5))), 0);
}

}  // namespace
}  // namespace acceptance
