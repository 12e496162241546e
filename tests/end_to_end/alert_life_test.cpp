// The life of an alert: it is raised once for its cause, ends with it, and a cause that returns raises another.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class AlertLife : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("mic", {"--unit", "mm", "--uncertainty", "0.002"});
    done({"at", "main_journal", "1"});  // 53.981 to 54.000 mm
    press("54.010");
  }
  json press(const std::string& size) { return Bench::press("mic", line(size)); }
  static json open() { return asked({"alerts"}); }
  static std::string whats() {
    std::string text;
    for (const json& alert : open()) text += alert["what"].get<std::string>() + " ";
    return text;
  }
};

TEST_F(AlertLife, AnotherVerdictIsAnotherAlert) {
  EXPECT_EQ(whats(), "out ");
  EXPECT_EQ(open()[0]["value_mm"], 54.010);
  EXPECT_EQ(open()[0]["limit_mm"], 54.000);
  press("54.001");
  EXPECT_EQ(whats(), "doubtful ");
  press("53.990");
  EXPECT_EQ(whats(), "");
  EXPECT_EQ(asked({"alerts", "--all"}).size(), 2U);
}

TEST_F(AlertLife, AClearedOneComesBackOnlyWithItsCause) {
  done({"alerts", "clear", open()[0]["id"].dump(), "--note", "known, to be ground"});
  press("54.011");
  EXPECT_EQ(whats(), "") << "it was out all the time";
  EXPECT_EQ(tenth({"check"}).status, 1) << "clearing changes no verdict";
  press("53.999");
  press("53.990");
  press("54.0021");
  EXPECT_EQ(whats(), "out ");
}

TEST_F(AlertLife, EndsWhereTheReadingIsVoidOrItsStageIsOver) {
  done({"undo"});
  EXPECT_EQ(whats(), "");
  press("54.010");
  EXPECT_EQ(whats(), "out ");
  done({"stage", "after grinding", "main_journal"});
  EXPECT_EQ(whats(), "");
}

TEST_F(AlertLife, EndsWhereTheSpecAsksForSomethingElse) {
  std::string spec = inline_four;
  spec.replace(spec.find("size = \"54 h6\""), 14, "limits = [53.981, 54.020]");
  done({"engine", "respec", "E1", "--spec", write("other.toml", spec), "--reason", "the maker's own sheet"});
  EXPECT_EQ(whats(), "");
}

TEST_F(AlertLife, IsOneForEachEngine) {
  engine(inline_four, "E2");
  press_at({"main_journal", "1"}, "mic", line("54.010"));
  ASSERT_EQ(open().size(), 2U);
  EXPECT_NE(open()[0]["engine"], open()[1]["engine"]);
}

}  // namespace
}  // namespace acceptance
