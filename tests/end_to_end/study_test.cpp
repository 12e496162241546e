// A gauge study walked by presses, and what a gauge's master checks say of it.
#include "tests/end_to_end/bench.hpp"

namespace acceptance {
namespace {

const std::string journals = R"(title = "Acceptance: journals"
unit = "mm"
[feature.journal]
count = 3
kind = "outside"
limits = [59.980, 60.020]
)";

class Study : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(journals);
    gauge("mic", {"--unit", "mm", "--measures", "outside"});
    done({"operator", "add", "ann"});
    done({"operator", "add", "bo"});
    done({"study", "plan", "s", "--gauge", "mic", "--feature", "journal", "--operators", "ann,bo", "--parts", "3",
          "--trials", "2", "--tolerance", "0.04"});
  }
  static json place() { return pick(asked({"status"})["places"], {{"gauge", "mic"}}); }
  void take_one() {
    const json turn = place();
    const std::string by = turn["operator"];
    done({"operator", "use", by, "--gauge", "mic"});
    const int tenths = turn["index"].get<int>() * 10 + turn["trial"].get<int>() + (by == "bo" ? 1 : 0);
    EXPECT_EQ(press("mic", line("60.00" + std::to_string(tenths)))["state"], "kept");
  }
};

TEST_F(Study, IsWalkedByPressesThroughARestart) {
  for (int i = 0; i < 5; ++i) take_one();
  daemon_.stop();
  daemon_.start();
  restart_watch();
  wait_open("mic");
  EXPECT_EQ(asked({"study", "s"})["done"], 5);
  for (int i = 5; i < 12; ++i) take_one();
  EXPECT_TRUE(place()["feature"].is_null());
  const json study = asked({"study", "s"});
  EXPECT_EQ(study["done"], 12);
  EXPECT_TRUE(study["why"].is_null()) << study;
  EXPECT_GT(study["anova"]["parts"]["sigma_mm"], study["anova"]["gauge"]["sigma_mm"]);
  EXPECT_EQ(study["adequacy"][0]["subject"], "journal");
  EXPECT_NE(done({"study", "s"}).find("repeatability"), std::string::npos);
  EXPECT_NE(done({"study"}).find("gauge mic on journal"), std::string::npos);
}

TEST_F(Study, WrongOnesAreRefused) {
  refused({"study", "t"}, 4);
  refused({"study", "plan", "s", "--gauge", "mic", "--feature", "journal", "--operators", "ann,bo"}, 4);
  refused({"study", "plan", "t", "--gauge", "mic", "--feature", "journal", "--operators", "ann"}, 2);
  refused({"study", "plan", "t", "--gauge", "mic", "--feature", "journal", "--operators", "ann,bo", "--parts", "9"}, 4);
}

TEST_F(Study, ChartsAndBiasComeFromTheMasterChecks) {
  refused({"charts", "mic"}, 4);
  for (const char* shown : {"50.0001", "50.0003", "50.0002", "50.0004"}) {
    done({"master", "mic", "50.000"});
    cable("mic").send(line(shown));
    watch_->next("setting");
  }
  const json charts = asked({"charts", "mic"});
  EXPECT_EQ(charts["checks"].size(), 3U);
  EXPECT_EQ(charts["checks"][0]["drift_mm"], 0.0002);
  EXPECT_EQ(charts["checks"][1]["drift_mm"], -0.0001);
  EXPECT_NE(done({"charts", "mic"}).find("o"), std::string::npos);
  const json bias = asked({"study", "bias", "mic"});
  EXPECT_EQ(bias["value_mm"], 0.00025);
  refused({"study", "linearity", "mic"}, 4);
  refused({"charts", "nobody"}, 4);
}

}  // namespace
}  // namespace acceptance
