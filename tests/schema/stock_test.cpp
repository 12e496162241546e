#include <gtest/gtest.h>

#include <fstream>
#include <random>
#include <sstream>

#include "schema/spec/spec_file.hpp"
#include "schema/stock/stock_file.hpp"

namespace tenth {
namespace {

/// The engine that the stock is for.
const Spec& spec() {
  static const Spec known = *parse_spec(R"(unit = "in"
[layout]
mains = 3
cylinders = 2
main_labels = ["front", "2", "rear"]
[feature.main_bearing]
count = "mains"
kind = "inside"
limits = [2.7515, 2.7525]
[feature.main_journal]
count = "mains"
kind = "outside"
[feature.bore]
count = "cylinders"
kind = "inside"
[feature.piston]
count = "cylinders"
kind = "outside"
[feature.oil_feed_clear]
kind = "check"
)",
                                        "engine.toml");
  return known;
}

/// A right head; what follows begins on line 3.
std::string with(const std::string& rest) {
  return "format = \"tenth-stock-1\"\nunit = \"in\"\n" + rest;
}

Stock read(const std::string& rest) {
  const auto stock = parse_stock(with(rest), "shelf.toml", spec());
  EXPECT_TRUE(stock) << stock.error().message;
  return stock.value_or(Stock{});
}

/// What is said of a wrong stock: "LINE:COLUMN: what is wrong -> what to do".
std::string said(const std::string& text) {
  const auto stock = parse_stock(text, "shelf.toml", spec());
  if (stock) return "accepted";
  EXPECT_EQ(stock.error().exit, Exit::refused);
  EXPECT_EQ(stock.error().code, "stock");
  EXPECT_EQ(stock.error().message.find('\n'), std::string::npos);
  EXPECT_FALSE(stock.error().remedy.empty());
  EXPECT_TRUE(stock.error().message.starts_with("shelf.toml:")) << stock.error().message;
  return stock.error().message.substr(11) + " -> " + stock.error().remedy;
}

#define EXPECT_SAID(text, where, what)                      \
  EXPECT_TRUE(said(text).starts_with(where)) << said(text); \
  EXPECT_NE(said(text).find(what), std::string::npos) << said(text)

Length inch(const char* text) {
  return *parse_length(text, Unit::in);
}

TEST(StockFile, ReadsEveryKeyOfAShell) {
  const Stock stock = read(R"(title = "Shelf, 20 November"
[[shell]]
id = "std-coated-upper"
feature = "main_bearing"
half = "upper"
places = ["front", "2"]
series = "A"
undersize = -0.001
wall = 0.0958
wall_by = "maker"
coated = true
count = 3
)");
  EXPECT_EQ(stock.title, "Shelf, 20 November");
  EXPECT_EQ(stock.unit, Unit::in);
  ASSERT_EQ(stock.shells.size(), 1U);
  const Shell& shell = stock.shells[0];
  EXPECT_EQ(shell.id, "std-coated-upper");
  EXPECT_EQ(shell.feature, "main_bearing");
  EXPECT_EQ(shell.half, Half::upper);
  EXPECT_EQ(shell.places, (std::vector<std::string>{"front", "2"}));
  EXPECT_EQ(shell.series, "A");
  EXPECT_EQ(shell.undersize, inch("-0.001"));
  EXPECT_EQ(shell.wall, (Wall{inch("0.0958"), inch("0.0958")}));
  EXPECT_EQ(shell.wall_by, WallBy::maker);
  EXPECT_TRUE(shell.coated);
  EXPECT_EQ(shell.count, 3);
}

TEST(StockFile, AMakersRangeAndUnitsOfTheirOwn) {
  const Stock stock =
      read("[[shell]]\nid = \"a\"\nfeature = \"main_bearing\"\nhalf = \"either\"\nwall = [0.0955, \"2.440 mm\"]\n");
  EXPECT_EQ(stock.shells[0].wall, (Wall{inch("0.0955"), inch("2.440 mm")}));
  EXPECT_EQ(stock.shells[0].count, 1);
  EXPECT_FALSE(stock.shells[0].coated);
  EXPECT_EQ(stock.shells[0].undersize, std::nullopt);
}

TEST(StockFile, ReadsPartsGrindingAndHoning) {
  const Stock stock = read(R"([[part]]
id = "piston-9"
feature = "piston"
size = 4.2446
count = 2
[[grind]]
feature = "main_journal"
standard = [2.7490, 2.7500]
steps = [0.020, 0.010]
any_size = true
tolerance = 0.0002
cleanup = 0.0005
smallest = 2.7290
all_alike = false
hardening = "renew after grinding"
[[hone]]
feature = "bore"
most = 0.0030
)");
  EXPECT_EQ(stock.parts[0].size, inch("4.2446"));
  EXPECT_EQ(stock.parts[0].count, 2);
  const Grind& grind = stock.grinds[0];
  EXPECT_EQ(grind.standard, (Limits{inch("2.7490"), inch("2.7500")}));
  EXPECT_EQ(grind.steps, (std::vector{inch("0.010"), inch("0.020")}));
  EXPECT_TRUE(grind.any_size);
  EXPECT_EQ(grind.tolerance, inch("0.0002"));
  EXPECT_EQ(grind.cleanup, inch("0.0005"));
  EXPECT_EQ(grind.smallest, inch("2.7290"));
  EXPECT_FALSE(grind.all_alike);
  EXPECT_EQ(grind.hardening, "renew after grinding");
  EXPECT_EQ(stock.hones[0].most, inch("0.0030"));
}

TEST(StockFile, FeaturesThatTheEngineLacksAreNoError) {
  const Stock stock = read("[[hone]]\nfeature = \"cam_bore\"\nmost = 0.001\n");
  EXPECT_EQ(stock.hones[0].feature, "cam_bore");
}

TEST(StockFile, TheExampleOfThePageIsRight) {
  std::ifstream page(TENTH_SOURCE_DIR "/schema/stock.md");
  std::stringstream text;
  text << page.rdbuf();
  const std::string whole = text.str();
  const auto from = whole.find("```toml\n") + 8;
  ASSERT_GT(from, 8U);
  std::string example = whole.substr(from, whole.find("```", from) - from);
  example.replace(example.find("[\"3\"]"), 5, "[\"2\"]");  // the engine here has other labels
  const auto stock = parse_stock(example, "shelf.toml", spec());
  ASSERT_TRUE(stock) << stock.error().message;
  EXPECT_EQ(stock->shells.size(), 2U);
}

TEST(StockErrors, MalformedOrOfAnotherFormat) {
  EXPECT_SAID("title = ", "1:9: ", "end-of-file");
  EXPECT_SAID("title = \"a\"", "1:1: ", "needs format -> write format = \"tenth-stock-1\" at the top");
  EXPECT_SAID("format = \"tenth-stock-2\"", "1:10: ", "format is not 'tenth-stock-1'");
  EXPECT_SAID("format = 1", "1:10: ", "format is text");
  EXPECT_SAID(std::string(1024 * 1024 + 1, '#'), "1:1: ", "the stock is larger than 1 MiB");
  EXPECT_SAID(with("unit = 1"), "3:", "redefine");
}

TEST(StockErrors, UnknownKeysOfferTheNearest) {
  EXPECT_SAID(with("shells = 1"), "3:1: ", "the stock has no key 'shells' -> did you mean shell?");
  EXPECT_SAID(with("[[shell]]\nwal = 1"), "4:1: ", "[[shell]] has no key 'wal' -> did you mean wall?");
  EXPECT_SAID(with("[shell]\nid = 'a'"), "3:1: ", "shell is no list of tables -> write a line [[shell]]");
  EXPECT_SAID(with("hone = [3]"), "3:8: ", "hone is no list of tables");
}

/// A shell with one line more, which is line 7.
std::string shell(const std::string& line) {
  return with("[[shell]]\nid = \"a\"\nfeature = \"main_bearing\"\nhalf = \"upper\"\n" + line + "\n");
}

TEST(StockErrors, ImpossibleWalls) {
  EXPECT_EQ(said(shell("")), "accepted");
  EXPECT_SAID(shell("wall = 0"), "7:8: ", "wall is not above zero");
  EXPECT_SAID(shell("wall = -0.09"), "7:8: ", "wall is not above zero");
  EXPECT_SAID(shell("wall = 95.8"), "7:8: ", "thicker than any bearing half -> look at the decimal point");
  EXPECT_SAID(shell("wall = [0.0960, 0.0955]"), "7:8: ", "the lower limit 0.096000 in is above the upper 0.095500 in");
  EXPECT_SAID(shell("wall = [0.0960]"), "7:8: ", "wall is no pair of lengths");
  EXPECT_SAID(shell("wall = true"), "7:8: ", "this is no length");
  EXPECT_SAID(shell("wall_by = \"me\""), "7:11: ", "choose from: measured, maker");
}

TEST(StockErrors, ImpossibleCountsAndUndersizes) {
  EXPECT_SAID(shell("count = -1"), "7:9: ", "no whole number from 0 to 10000");
  EXPECT_SAID(shell("count = 2.5"), "7:9: ", "no whole number");
  EXPECT_SAID(shell("undersize = 0.010"), "7:13: ", "undersize without series");
  EXPECT_SAID(shell("series = \"A\"\nundersize = 3"), "8:13: ", "as large as the bearing");
  EXPECT_SAID(shell("coated = \"yes\""), "7:10: ", "coated is neither true nor false");
}

TEST(StockErrors, UnknownPlacesAndFeaturesOfTheWrongKind) {
  EXPECT_SAID(shell("places = [\"front\", \"3\"]"), "7:20: ", "main_bearing has no '3'");
  EXPECT_SAID(shell("places = []"), "7:10: ", "is empty");
  EXPECT_SAID(with("[[shell]]\nid = 'a'\nfeature = 'main_journal'\nhalf = 'upper'"), "5:11: ", "is of kind outside");
  EXPECT_SAID(with("[[hone]]\nfeature = 'piston'\nmost = 0.001"), "4:11: ", "only bores are honed");
  EXPECT_SAID(with("[[grind]]\nfeature = 'bore'\nstandard = [1, 2]\ntolerance = 0"),
              "4:11: ", "only journals are ground");
  EXPECT_SAID(with("[[hone]]\nfeature = 'oil_feed_clear'\nmost = 0.001"), "4:11: ", "no size at the check");
}

TEST(StockErrors, WhatMustBeSaid) {
  EXPECT_SAID(with("[[shell]]\nfeature = 'main_bearing'\nhalf = 'upper'"), "3:1: ", "needs id");
  EXPECT_SAID(with("[[shell]]\nid = 'a'\nhalf = 'upper'"), "3:1: ", "needs feature");
  EXPECT_SAID(with("[[shell]]\nid = 'a'\nfeature = 'main_bearing'"), "3:1: ", "needs half");
  EXPECT_SAID(with("[[part]]\nid = 'a'\nfeature = 'piston'"), "3:1: ", "needs size");
  EXPECT_SAID(with("[[grind]]\nfeature = 'main_journal'\ntolerance = 0"), "3:1: ", "needs standard");
  EXPECT_SAID(with("[[grind]]\nfeature = 'main_journal'\nstandard = [1, 2]"), "3:1: ", "needs tolerance");
  EXPECT_SAID(with("[[hone]]\nfeature = 'bore'"), "3:1: ", "needs most");
}

TEST(StockErrors, IdsAndFeaturesStandOnce) {
  const std::string part = "[[part]]\nid = 'a'\nfeature = 'piston'\nsize = 4\n";
  EXPECT_SAID(with(part + part), "8:6: ", "'a' stands there twice");
  EXPECT_SAID(with("[[shell]]\nid = 'a'\nfeature = 'main_bearing'\nhalf = 'upper'\n" + part),
              "8:6: ", "stands there twice");
  EXPECT_SAID(with("[[part]]\nid = 'a b'\nfeature = 'piston'\nsize = 4"), "4:6: ", "cannot be typed as one word");
  const std::string hone = "[[hone]]\nfeature = 'bore'\nmost = 0.001\n";
  EXPECT_SAID(with(hone + hone), "6:1: ", "[[hone]] 'bore' stands there twice");
}

/// A grinding with one line more, which is line 7.
std::string grind(const std::string& line) {
  return with("[[grind]]\nfeature = 'main_journal'\nstandard = [2.749, 2.750]\ntolerance = 0.0002\n" + line + "\n");
}

TEST(StockErrors, ImpossibleSizes) {
  EXPECT_EQ(said(grind("")), "accepted");
  EXPECT_SAID(grind("smallest = 2.8"), "7:12: ", "smallest 2.800000 in is above the standard size");
  EXPECT_SAID(grind("smallest = 0"), "7:12: ", "smallest is not above zero");
  EXPECT_SAID(grind("steps = [0.010, -0.020]"), "7:17: ", "is no undersize");
  EXPECT_SAID(grind("steps = [3]"), "7:10: ", "is no undersize");
  EXPECT_SAID(grind("steps = 0.010"), "7:9: ", "steps is no list of lengths");
  EXPECT_SAID(grind("cleanup = -1"), "7:11: ", "cleanup is below zero");
  EXPECT_SAID(with("[[part]]\nid = 'a'\nfeature = 'piston'\nsize = 0"), "6:8: ", "size is not above zero");
  EXPECT_SAID(with("[[part]]\nid = 'a'\nfeature = 'piston'\nsize = 4e9"), "6:8: ", "beyond 100 m");
  EXPECT_SAID("format = \"tenth-stock-1\"\n[[hone]]\nfeature = 'bore'\nmost = 0.001",
              "4:8: ", "the unit of this number is not known");
}

/// Whatever the bytes are, there is an answer.
TEST(StockErrors, BrokenFilesGetOneLine) {
  const std::string right =
      grind("steps = [0.010]") + "[[shell]]\nid = 'a'\nfeature = 'main_bearing'\nhalf = 'upper'\nwall = 0.09\n";
  std::mt19937 random(11);
  for (int i = 0; i < 3000; ++i) {
    std::string text = right;
    for (int j = 0; j < 3; ++j) text[random() % text.size()] = static_cast<char>(random() % 128);
    const auto stock = parse_stock(text, "shelf.toml", spec());
    if (!stock) {
      EXPECT_EQ(stock.error().code, "stock");
    }
  }
}

}  // namespace
}  // namespace tenth
