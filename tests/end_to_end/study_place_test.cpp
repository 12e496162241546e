// A study's place says which part, who and which trial; a press by somebody else is held.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class StudyPlace : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    for (const char* name : {"ann", "bo"}) done({"operator", "add", name});
    gauge("mic", {"--unit", "mm"});
    done({"study", "plan", "s1", "--gauge", "mic", "--feature", "piston", "--parts", "2", "--operators", "ann,bo",
          "--trials", "2"});
    place_ = watch_->next("place", [](const json& event) { return event["gauge"] == "mic"; });
  }
  json place_;
};

TEST_F(StudyPlace, IsFlat) {
  EXPECT_EQ(place_["study"], "s1") << place_;
  for (const char* key : {"part", "operator", "trial"}) EXPECT_TRUE(place_.contains(key)) << key;
}

TEST_F(StudyPlace, SomebodyElsesPressIsHeldAndThePlaceStays) {
  const std::string planned = place_["operator"];
  done({"operator", "use", planned == "ann" ? "bo" : "ann"});
  EXPECT_EQ(press("mic", line("85.950"))["state"], "suspect");
  done({"operator", "use", planned});
  EXPECT_EQ(press("mic", line("85.950"))["index"], place_["index"]);
}

}  // namespace
}  // namespace acceptance
