// The words of `tenth`: exit statuses, one-line errors, names, units, help.
#include <regex>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

using Offline = ColdBench;

class Command : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
  }
};

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

TEST_F(Offline, WrongWordsAreStatus2WhateverTheDaemonKnows) {
  for (const Words& words : {Words{"bogus"},
                             {"engine"},
                             {"engine", "add"},
                             {"engine", "add", "E1"},
                             {"void", "3"},
                             {"keep", "3"},
                             {"move", "3", "bore"},
                             {"void", "x", "--reason", "r"},
                             {"void", "9..3", "--reason", "r"},
                             {"export"},
                             {"export", "--format", "xls"},
                             {"enter", "abc", "--again", "abc"},
                             {"master", "g", "25.4 furlong"},
                             {"alerts", "clear"},
                             {"status", "--bogus"},
                             {"--unit", "ft", "status"},
                             {"readings", "--since", "yesterdayish"},
                             {"gauge", "add", "g"},
                             {"stage"},
                             {"audit", "--head", "x"},
                             {"gauge", "add", "g", "--port", "hand", "--profile", "line", "--reads", "colour"}}) {
    refused(words, 2);
  }
}

TEST_F(Offline, HelpShowsTheCommandsAndExamples) {
  const std::string help = done({"--help"});
  for (const char* word : {"engine", "gauge", "at", "round", "master", "recheck", "undo", "void", "keep", "move",
                           "enter", "stage", "watch", "readings", "check", "alerts", "export", "audit", "status"}) {
    EXPECT_TRUE(std::regex_search(help, std::regex(std::string("\\b") + word + "\\b"))) << word;
  }
  EXPECT_TRUE(std::regex_search(help, std::regex("xample")));
  for (const Words& words :
       {Words{"gauge", "add", "--help"}, {"round", "--help"}, {"master", "--help"}, {"export", "--help"}}) {
    EXPECT_TRUE(std::regex_search(done(words), std::regex("tenth " + words[0]))) << words[0];
  }
}

TEST_F(Offline, TheNearestRightWordIsNamed) {
  EXPECT_TRUE(has(refused({"raedings"}, 2), "readings"));
  EXPECT_TRUE(has(refused({"chek"}, 2), "check"));
}

TEST_F(Command, UnknownNamesAreRefusedWithTheNearestWord) {
  EXPECT_TRUE(has(refused({"at", "boer", "1", "top", "thrust"}, 4), "bore"));
  EXPECT_TRUE(has(refused({"round", "main_jurnal"}, 4), "main_journal"));
  EXPECT_TRUE(has(refused({"at", "bore", "1", "tpo", "thrust"}, 4), "top"));
  EXPECT_TRUE(has(refused({"engine", "use", "E11"}, 4), "E1"));
  gauge("bore_gauge", {"--unit", "mm"});
  EXPECT_TRUE(has(refused({"gauge", "drop", "bore_guage"}, 4), "bore_gauge"));
  EXPECT_TRUE(has(refused({"gauge", "add", "g2", "--port", home_ / "nowhere", "--profile", "bdc13"}, 4), "bcd13"));
}

TEST_F(Command, WhatIsWellFormedAndNotSoIsStatus4) {
  for (const Words& words : {Words{"at", "bore", "5", "top", "thrust"},
                             {"at", "bore", "0", "top", "thrust"},
                             {"at", "bore", "1", "top"},
                             {"at", "piston", "1", "top"},
                             {"at", "bore", "1", "top", "thrust", "--gauge", "nobody"},
                             {"next"},
                             {"back"},
                             {"void", "999999", "--reason", "r"},
                             {"keep", "1", "--reason", "r"},
                             {"undo", "--gauge", "nobody"},
                             {"undo"},
                             {"master", "nobody", "86mm"},
                             {"recheck", "nobody"},
                             {"check", "--engine", "nobody"},
                             {"readings", "--feature", "nothing"},
                             {"operator", "use", "nobody"},
                             {"stage", "ground", "nothing"},
                             {"alerts", "clear", "424242", "--note", "n"},
                             {"export", "--engine", "nobody", "--format", "csv"},
                             {"engine", "add", "E1", "--spec", home_ / "E1.toml"},
                             {"engine", "add", "E2", "--spec", home_ / "none.toml"},
                             {"enter", "86.01", "--again", "86.01", "--gauge", "nobody"},
                             {"round", "bore", "--from", "9"}}) {
    refused(words, 4);
  }
  EXPECT_EQ(asked({"readings", "--all"}).size(), 0U);
}

TEST_F(Command, RefusalsChangeNoPlace) {
  done({"at", "bore", "2", "middle", "pin"});
  watch_->forget();
  refused({"at", "bore", "7", "middle", "pin"}, 4);
  refused({"round", "bore", "pistonn"}, 4);
  gauge("g", {"--unit", "mm"});
  EXPECT_EQ(place_of(press("g", line("86.010"))), "bore/2/middle/pin");
}

TEST_F(Command, APlaceIsTakenInEveryWayOfWriting) {
  gauge("g", {"--unit", "mm"});
  for (const Words& words : {Words{"bore/3/top/thrust"}, {"bore", "3", "top", "thrust"}, {"bore", "3", "t", "th"}}) {
    EXPECT_EQ(place_of(press_at(words, "g", line("86.010"))), "bore/3/top/thrust");
  }
  EXPECT_EQ(place_of(press_at({"main_bearing/1/vertical"}, "g", line("54.040"))), "main_bearing/1/vertical");
  EXPECT_EQ(place_of(press_at({"main_journal/5"}, "g", line("53.990"))), "main_journal/5");
}

TEST_F(Command, OfASingleIndexTheIndexMayBeLeftOut) {
  engine(single, "E2");
  gauge("g", {"--unit", "mm"});
  const json reading = press_at({"bore"}, "g", line("70.010"));
  EXPECT_EQ(reading["feature"], "bore");
  EXPECT_TRUE(reading["level"].is_null());
  EXPECT_TRUE(reading["axis"].is_null());
}

TEST_F(Command, LengthsTakeAnyUnitOfTheTrade) {
  gauge("g", {"--reads", "deviation", "--unit", "mm"});
  for (const char* size : {"25.4 mm", "25.4mm", "1 in", "1in", "25400 um", "1000 thou", "10000 tenth", "10000tenth"}) {
    done({"master", "g", size});
    cable("g").send(line("0.000"));
    EXPECT_EQ(watch_->next("setting")["master_mm"], 25.4) << size;
  }
  done({"master", "g", "25.4"});  // bare: the spec's unit
  cable("g").send(line("0.000"));
  EXPECT_EQ(watch_->next("setting")["master_mm"], 25.4);
  done({"--unit", "in", "master", "g", "1"});
  cable("g").send(line("0.000"));
  EXPECT_EQ(watch_->next("setting")["master_mm"], 25.4);
}

TEST_F(Command, ABareLengthWithoutAnyUnitIsStatus2) {
  gauge("g", {"--reads", "deviation", "--unit", "mm"});
  daemon_.stop();
  std::filesystem::remove_all(daemon_.state());
  daemon_.start();
  restart_watch();
  done({"gauge", "add", "g", "--port", cable("g").port(), "--profile", "line", "--reads", "deviation", "--unit", "mm"});
  refused({"master", "g", "25.4"}, 2);
}

TEST_F(Command, TheUnitChangesTheTextAndNotTheJson) {
  gauge("g", {"--unit", "mm"});
  press_at({"bore", "1", "top", "thrust"}, "g", line("86.0171"));
  EXPECT_TRUE(has(done({"readings"}), "86.0171"));
  EXPECT_TRUE(has(done({"--unit", "in", "readings"}), "3.3865"));
  EXPECT_EQ(asked({"--unit", "in", "readings"})[0]["size_mm"], 86.0171);
}

TEST_F(Command, ListsAreDocumentsThatNameWhatWasAdded) {
  engine(single, "E2");
  done({"operator", "add", "Ada"});
  gauge("g", {"--unit", "mm", "--serial", "S-7"});
  EXPECT_TRUE(has(asked({"engine", "list"}).dump(), "\"E2\""));
  EXPECT_TRUE(has(asked({"operator", "list"}).dump(), "\"Ada\""));
  EXPECT_TRUE(has(asked({"gauge", "list"}).dump(), "\"S-7\""));
  EXPECT_TRUE(has(done({"engine", "list"}), "E2"));
  EXPECT_TRUE(has(done({"operator", "list"}), "Ada"));
  EXPECT_TRUE(has(done({"gauge", "list"}), "g"));
  done({"gauge", "drop", "g"});
  EXPECT_EQ(asked({"status"})["gauges"], json::array());
}

TEST_F(Command, StatusHasTheKeysOfTheContract) {
  gauge("g", {"--unit", "mm", "--reads", "deviation"});
  done({"operator", "add", "Ada"});
  done({"operator", "use", "Ada"});
  done({"at", "bore", "2", "top", "pin"});
  const json status = asked({"status"});
  EXPECT_EQ(status["engine"], "E1");
  EXPECT_EQ(status["operator"], "Ada");
  EXPECT_EQ(status["stage"], "as found");
  EXPECT_TRUE(status["version"].is_string());
  EXPECT_EQ(status["ledger"]["id"].get<std::string>().size(), 32U);
  EXPECT_EQ(status["ledger"]["hash"].get<std::string>().size(), 64U);
  EXPECT_EQ(status["ledger"]["waiting"], 0);
  EXPECT_GT(status["disk"]["free_bytes"].get<double>(), 0.0);
  EXPECT_TRUE(status["alerts"] == 0 || status["alerts"] == json::array()) << status["alerts"];
  ASSERT_EQ(status["places"].size(), 1U);
  EXPECT_EQ(place_of(status["places"][0]), "bore/2/top/pin");
  const json gauge = pick(status["gauges"], {{"name", "g"}});
  for (const char* key : {"state", "age_s", "setting", "due"}) EXPECT_TRUE(gauge.contains(key)) << key;
  EXPECT_TRUE(gauge["setting"].is_null());
}

TEST_F(Command, ControlCharactersAreNeverShownRaw) {
  const std::string sly = "bad\x1b[31mname\a";
  const Ran added = tenth({"operator", "add", sly});
  EXPECT_FALSE(has(added.out + added.err, "\x1b"));
  if (added.status == 0) {
    EXPECT_FALSE(has(done({"operator", "list"}), "\x1b"));
    EXPECT_FALSE(has(done({"--json", "operator", "list"}), "\x1b"));
  }
  const Ran unknown = tenth({"at", sly});
  EXPECT_EQ(unknown.status, 4);
  EXPECT_FALSE(has(unknown.err, "\x1b")) << unknown.err;
  EXPECT_FALSE(has(unknown.err, "\a")) << unknown.err;
}

TEST_F(Command, TheSocketMayBeNamedOnTheCommandLine) {
  unsetenv("TENTH_SOCKET");
  done({"--socket", daemon_.socket(), "status"});
  EXPECT_EQ(tenth({"--socket", home_ / "none", "status"}).status, 3);
}

TEST_F(Command, EnginesKeepApart) {
  gauge("g", {"--unit", "mm"});
  press_at({"bore", "1", "top", "pin"}, "g", line("86.010"));
  engine(single, "E2");
  const json lost = press("g", line("86.011"));  // `engine use` cleared the place
  EXPECT_EQ(doubts_of(lost), "no_place");
  press_at({"bore"}, "g", line("70.010"));
  EXPECT_EQ(asked({"readings"}).size(), 1U);
  EXPECT_EQ(asked({"readings", "--engine", "E1"}).size(), 1U);
  EXPECT_EQ(asked({"readings"})[0]["engine"], "E2");
}

}  // namespace
}  // namespace acceptance
