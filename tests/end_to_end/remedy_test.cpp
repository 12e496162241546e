// One main bearing is tight: shells from the shelf do not suffice, the crank is ground, and all is in.
#include "tests/end_to_end/bench.hpp"

namespace acceptance {
namespace {

const std::string mains = R"(title = "Acceptance: mains"
unit = "mm"
[feature.bearing]
count = 3
kind = "inside"
[feature.journal]
count = 3
kind = "outside"
[fit.clearance]
inside = "bearing"
outside = "journal"
limits = [0.045, 0.070]
target = 0.055
)";

const std::string shelf = R"(format = "tenth-stock-1"
title = "Acceptance: shelf"
unit = "mm"
[[shell]]
id = "plain-upper"
feature = "bearing"
half = "upper"
wall = 2.400
count = 0
[[shell]]
id = "plain-lower"
feature = "bearing"
half = "lower"
wall = 2.400
count = 0
[[shell]]
id = "thin-upper"
feature = "bearing"
half = "upper"
wall = 2.397
count = 1
[[grind]]
feature = "journal"
standard = [59.980, 60.000]
any_size = true
tolerance = 0.004
cleanup = 0.010
smallest = 59.000
all_alike = true
hardening = "renew after grinding"
)";

class TightMain : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(mains);
    gauge("g", {"--unit", "mm"});
    stock_ = write("shelf.toml", shelf).string();
    for (const char* index : {"1", "2", "3"}) {
      done({"install", "bearing", index, "plain-upper", "--half", "upper"});
      done({"install", "bearing", index, "plain-lower", "--half", "lower"});
    }
    bearings("60.050", "60.050", "60.035");
    journals("59.995");
  }
  void bearings(const std::string& one, const std::string& two, const std::string& three) {
    press_at({"bearing", "1"}, "g", line(one));
    press_at({"bearing", "2"}, "g", line(two));
    press_at({"bearing", "3"}, "g", line(three));
  }
  void journals(const std::string& size) {
    for (const char* index : {"1", "2", "3"}) press_at({"journal", index}, "g", line(size));
  }
  std::string stock_;
};

TEST_F(TightMain, IsMendedByGrindingWhereTheShelfDoesNotSuffice) {
  refused({"remedies", "--stock", (home_ / "nowhere.toml").string()}, 4);
  const json without = asked({"remedies"}, 1);
  EXPECT_EQ(without["none"][0]["fit"], "clearance");
  EXPECT_TRUE(without["stock"].is_null());

  const json with = asked({"remedies", "--stock", stock_}, 0);
  EXPECT_EQ(with["stock"]["title"], "Acceptance: shelf");
  const json ground = pick(with["remedies"], {{"kind", "grind"}});
  ASSERT_FALSE(ground.is_null()) << with;
  EXPECT_EQ(ground["enough"], true);
  EXPECT_EQ(ground["undo"], "never");
  // 60.050 - 0.070 + 0.004 = 59.984 to 60.035 - 0.045 - 0.004 = 59.986, and 59.995 - 0.010 = 59.985: nearest to
  // mean(60.050, 60.050, 60.035) - 0.055 = 59.990 is 59.985.
  EXPECT_EQ(ground["steps"][0]["ask_mm"], 59.985);
  EXPECT_EQ(ground["steps"][0]["low_mm"], 59.981);
  EXPECT_EQ(ground["steps"][0]["high_mm"], 59.989);
  EXPECT_TRUE(ground["text"].get<std::string>().starts_with("Cannot be undone"));
  const json shells = pick(with["remedies"], {{"kind", "shells"}});
  EXPECT_EQ(shells["enough"], false);
  EXPECT_EQ(shells["steps"][0]["in"], "thin-upper");

  done({"decide", "all mains ground to 59.985", "--remedy", ground["id"].get<std::string>(), "--reason",
        "no shells suffice"});
  done({"stage", "after grinding", "journal"});
  asked({"check", "--strict"}, 1);
  journals("59.985");
  EXPECT_EQ(asked({"check", "--strict"})["verdict"], "in");
  EXPECT_EQ(asked({"remedies", "--stock", stock_})["remedies"], json::array());
}

// The whole way of it by presses: the shelf first, which can be undone; measured again, still tight; then the grinder.
TEST_F(TightMain, FromTheShelfToTheGrinderAndBack) {
  done({"install", "bearing", "3", "thin-upper", "--half", "upper"});
  EXPECT_TRUE(pick(asked({"check"}, 0)["fits"], {{"index", 3}})["mean_mm"].is_null()) << "to be measured anew";
  press_at({"bearing", "3"}, "g", line("60.038"));
  const json tight = pick(asked({"check"}, 1)["fits"], {{"index", 3}});
  EXPECT_EQ(tight["mean_mm"], 0.043);
  EXPECT_EQ(tight["verdict"], "out");
  const json list = asked({"remedies", "--stock", stock_}, 0)["remedies"];
  for (const json& remedy : list) EXPECT_NE(remedy["kind"], "shells") << "the shelf is empty";
  // 60.050 - 0.070 + 0.004 = 59.984 to 60.038 - 0.045 - 0.004 = 59.989; cleaned up: 59.995 - 0.010 = 59.985.
  EXPECT_EQ(pick(list, {{"kind", "grind"}})["steps"][2]["ask_mm"], 59.985);

  done({"send", "journal", "--to", "the crank grinder", "--ask", "grind and polish", "--size", "59.985", "--within",
        "0.004"});
  const json too_early = press_at({"journal", "1"}, "g", line("59.985"));
  EXPECT_EQ(doubts_of(too_early), "away");
  done({"void", too_early["seq"].dump(), "--reason", "it is at the grinder"});
  done({"receive", "journal"});
  done({"stage", "after grinding", "journal"});
  asked({"check", "--strict"}, 1);
  journals("59.985");
  const json report = asked({"check", "--strict"});
  EXPECT_EQ(report["verdict"], "in");
  ASSERT_EQ(report["returned"].size(), 3U);
  for (const json& back : report["returned"]) EXPECT_EQ(back["verdict"], "in") << back;
}

TEST_F(TightMain, WhatIfChangesNothing) {
  const json now = asked({"check"}, 1);
  const json would = asked({"what-if", "clearance", "3", "--shells", "thin-upper", "plain-lower", "--stock", stock_});
  EXPECT_EQ(would["now"]["mean_mm"], 0.04);
  EXPECT_EQ(would["would"]["mean_mm"], 0.043);
  EXPECT_EQ(asked({"what-if", "clearance", "3", "--outside", "59.980"})["would"]["mean_mm"], 0.055);
  refused({"what-if", "clearance", "3"}, 2);
  refused({"what-if", "clearance", "9", "--outside", "59.980"}, 4);
  refused({"what-if", "clearance", "3", "--temperature", "90"}, 4);  // no material is named
  EXPECT_EQ(asked({"check"}, 1), now);
}

TEST_F(TightMain, AStockWithErrorsIsRefusedWithItsLine) {
  const auto wrong = write(
      "wrong.toml", shelf + "[[shell]]\nid = \"thin-upper\"\nfeature = \"bearing\"\nhalf = \"upper\"\nwall = -1\n");
  EXPECT_NE(refused({"remedies", "--stock", wrong.string()}, 4).find("wrong.toml:"), std::string::npos);
}

}  // namespace
}  // namespace acceptance
