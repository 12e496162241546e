// The way of one reading: from bytes on a pseudo-terminal to an announced reading and a moved place.
#include <cmath>
#include <regex>
#include <thread>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

class Reading : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
  }
  void bore_gauge(const std::string& profile, const std::string& unit = "mm") {
    gauge("bg", {"--reads", "size", "--measures", "inside", "--unit", unit}, profile);
  }
};

TEST_F(Reading, HasEveryKeyOfTheContract) {
  bore_gauge("line");
  done({"operator", "add", "Ada"});
  done({"operator", "use", "Ada"});
  const json reading = press_at({"bore", "3", "top", "thrust"}, "bg", line(" 86.0125"));
  for (const char* key : {"seq",     "time",   "engine",  "feature", "index",    "level",   "axis",        "operator",
                          "gauge",   "raw",    "text",    "unit",    "value_mm", "size_mm", "size_20c_mm", "state",
                          "hash",    "label",  "stage",   "counts",  "doubts",   "reason",  "source",      "moved_from",
                          "setting", "closed", "overdue", "verdict", "to_go_mm"}) {
    EXPECT_TRUE(reading.contains(key)) << key;
  }
  EXPECT_EQ(reading["engine"], "E1");
  EXPECT_EQ(place_of(reading), "bore/3/top/thrust");
  EXPECT_EQ(reading["operator"], "Ada");
  EXPECT_EQ(reading["gauge"], "bg");
  EXPECT_EQ(reading["raw"], " 86.0125");
  EXPECT_EQ(reading["text"], "86.0125");
  EXPECT_EQ(reading["unit"], "mm");
  EXPECT_EQ(reading["value_mm"], 86.0125);
  EXPECT_EQ(reading["size_mm"], 86.0125);
  EXPECT_TRUE(reading["size_20c_mm"].is_null());
  EXPECT_EQ(reading["state"], "kept");
  EXPECT_EQ(reading["label"], "3");
  EXPECT_EQ(reading["stage"], "as found");
  EXPECT_EQ(reading["counts"], true);
  EXPECT_EQ(reading["doubts"], json::array());
  EXPECT_TRUE(reading["reason"].is_null());
  EXPECT_EQ(reading["source"], "gauge");
  EXPECT_TRUE(reading["moved_from"].is_null());
  EXPECT_TRUE(reading["setting"].is_null());
  EXPECT_EQ(reading["verdict"], "incomplete");
  const std::regex utc("[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}\\.[0-9]{6}Z");
  EXPECT_TRUE(std::regex_match(reading["time"].get<std::string>(), utc)) << reading["time"];
}

TEST_F(Reading, IsAnnouncedOnlyAfterItsRowIsOnDisk) {
  bore_gauge("line");
  done({"round", "bore"});
  for (const char* number : {"86.011", "86.012", "86.013", "86.012", "86.011", "86.010"}) {
    const json reading = press("bg", line(number));
    const auto rows = entries(daemon_.ledger(), "seq = " + reading["seq"].dump());
    ASSERT_EQ(rows.size(), 1U);
    EXPECT_EQ(reading["hash"], rows[0].hash);
    const json body = rows[0].json();
    EXPECT_EQ(body["kind"], "reading");
    EXPECT_EQ(body["raw"], number);
    EXPECT_EQ(body["value_pm"].get<long long>(), std::llround(reading["value_mm"].get<double>() * 1e9));
    EXPECT_TRUE(reading["setting"].is_null());
  }
}

TEST_F(Reading, OfALineKeepsTheTextAndTheExactNumber) {
  bore_gauge("line");
  struct Case {
    const char *frame, *raw, *text;
    double value_mm;
  };
  for (const Case& one :
       {Case{"86.010\r\n", "86.010", "86.010", 86.010}, Case{"+86.011\n", "+86.011", "+86.011", 86.011},
        Case{"  086.0120 \r", "  086.0120 ", "086.0120", 86.012}, Case{"86,013\r", "86,013", "86,013", 86.013},
        Case{"8.6014E1\r", "8.6014E1", "8.6014E1", 86.014}, Case{"86.015mm\r", "86.015mm", "86.015", 86.015},
        Case{"86.016 mm\r", "86.016 mm", "86.016", 86.016}}) {
    const json reading = press_at({"bore", "1", "top", "pin"}, "bg", one.frame);
    EXPECT_EQ(reading["raw"], one.raw);
    EXPECT_EQ(reading["text"], one.text);
    EXPECT_EQ(reading["value_mm"], one.value_mm);
    EXPECT_EQ(reading["unit"], "mm");
    EXPECT_EQ(reading["state"], "kept") << reading;
  }
}

TEST_F(Reading, OfABcdFrameHasTheDecimalsOfTheFrame) {
  bore_gauge("bcd13");
  json reading = press_at({"bore", "1", "top", "pin"}, "bg", "FFFF008601230\r");
  EXPECT_EQ(reading["text"], "86.012") << reading;
  reading = press_at({"bore", "1", "top", "pin"}, "bg", "ffff008601130\r\n");
  EXPECT_EQ(reading["text"], "86.011");
  EXPECT_EQ(reading["raw"], "ffff008601130");
  EXPECT_EQ(reading["value_mm"], 86.011);
  EXPECT_EQ(reading["state"], "kept");
  reading = press_at({"bore", "1", "top", "pin"}, "bg", bcd13("-0.005"));
  EXPECT_EQ(reading["text"], "-0.005");
  EXPECT_EQ(reading["value_mm"], -0.005);
  reading = press_at({"bore", "1", "top", "pin"}, "bg", bcd13("-0.000"));
  EXPECT_EQ(reading["text"], "0.000");
  EXPECT_EQ(reading["value_mm"], 0);
  EXPECT_FALSE(std::signbit(reading["value_mm"].get<double>()));
}

TEST_F(Reading, OfABcdFrameInInchesIsExact) {
  bore_gauge("bcd13", "in");
  const json reading = press_at({"bore", "2", "middle", "pin"}, "bg", "FFFF033865051\r");
  EXPECT_EQ(reading["text"], "3.38650");
  EXPECT_EQ(reading["unit"], "in");
  EXPECT_EQ(reading["value_mm"], 86.0171);  // 3.3865 × 25.4
  EXPECT_EQ(reading["state"], "kept");
}

TEST_F(Reading, OfABinaryFrameCountsStepsOfAHundredth) {
  bore_gauge("bin24");
  json reading = press_at({"bore", "4", "bottom", "thrust"}, "bg", "002199\r");  // 8601 steps
  EXPECT_EQ(reading["text"], "86.01");
  EXPECT_EQ(reading["raw"], "002199");
  EXPECT_EQ(reading["value_mm"], 86.01);
  EXPECT_EQ(reading["state"], "kept");
  reading = press_at({"bore", "4", "bottom", "thrust"}, "bg", bin24(-7));
  EXPECT_EQ(reading["text"], "-0.07");
  EXPECT_EQ(reading["value_mm"], -0.07);
  reading = press_at({"bore", "4", "bottom", "thrust"}, "bg", bin24(0));
  EXPECT_EQ(reading["text"], "0.00");
}

TEST_F(Reading, OfABinaryFrameInInchesCountsHalfThousandths) {
  bore_gauge("bin24", "in");
  json reading = press_at({"bore", "4", "bottom", "thrust"}, "bg", "801A75\r");  // 6773 steps: 3.3865 in
  EXPECT_EQ(reading["text"], "3.3865");
  EXPECT_EQ(reading["unit"], "in");
  EXPECT_EQ(reading["value_mm"], 86.0171);
  reading = press_at({"bore", "4", "bottom", "thrust"}, "bg", bin24(-1, Unit::inch));
  EXPECT_EQ(reading["text"], "-0.0005");
  EXPECT_EQ(reading["value_mm"], -0.0127);
}

TEST_F(Reading, IsPrintedWithEveryPicometreOfAMillionthOfAnInch) {
  bore_gauge("line", "in");
  press_at({"bore", "1", "top", "pin"}, "bg", line("3.386501"));
  const std::string printed = done({"--json", "readings"});
  EXPECT_TRUE(std::regex_search(printed, std::regex("\"value_mm\": *86\\.0171254[,}\\s]"))) << printed;
  cable("bg").send(line("1E-9"));  // 25.4 pm: finer than a picometre
  EXPECT_EQ(watch_->next("fault")["why"], "bad_frame");
}

TEST_F(Reading, MovesTheRoundOnAndTellsThePlaceAfterIt) {
  bore_gauge("line");
  done({"round", "bore"});
  const auto at = [](const std::string& place) { return [=](const json& event) { return place_of(event) == place; }; };
  EXPECT_EQ(watch_->next("place", at("bore/1/top/thrust"))["done"], 0);
  const json reading = press("bg", line("86.010"));
  EXPECT_EQ(place_of(reading), "bore/1/top/thrust");
  const json place = watch_->next("place", at("bore/1/top/pin"));
  EXPECT_TRUE(place["gauge"].is_null());
  EXPECT_EQ(place["engine"], "E1");
  EXPECT_EQ(place["label"], "1");
  EXPECT_EQ(place["where"], "plates fitted");
  EXPECT_EQ(place["done"], 1);
  EXPECT_EQ(place["of"], 24);
}

TEST_F(Reading, SplitAnywhereIsOneReading) {
  bore_gauge("bcd13");
  done({"at", "bore", "1", "top", "pin"});
  const std::string frame = bcd13("86.014");
  for (const char byte : frame) {
    cable("bg").send(std::string(1, byte));
    std::this_thread::sleep_for(Millis(3));
  }
  const json reading = watch_->next("reading");
  EXPECT_EQ(reading["text"], "86.014");
  EXPECT_EQ(reading["state"], "kept") << reading;
  EXPECT_EQ(asked({"readings", "--all"}).size(), 1U);
}

TEST_F(Reading, BelongsToThePlaceThatWasThereWhenItsLastByteCame) {
  bore_gauge("line");
  done({"at", "bore", "1", "top", "pin"});
  for (int turn = 0; turn < 5; ++turn) {
    cable("bg").send(line("86.010"));
    done({"at", "bore", "2", "top", "pin"});
    EXPECT_EQ(place_of(watch_->next("reading")), "bore/1/top/pin");
    cable("bg").send(line("86.010"));
    done({"at", "bore", "1", "top", "pin"});
    EXPECT_EQ(place_of(watch_->next("reading")), "bore/2/top/pin");
  }
}

TEST_F(Reading, IsHeardByEveryWatcherAndReplayedFromASeq) {
  bore_gauge("line");
  done({"at", "bore", "1", "top", "pin"});
  Watch second;
  const json first = press("bg", line("86.010"));
  EXPECT_EQ(second.next("reading"), first);
  EXPECT_EQ(first["seq"].get<int>() > watch_->hello()["seq"].get<int>(), true);
  EXPECT_EQ(watch_->hello()["version"], 1);
  Watch late({"--since", watch_->hello()["seq"].dump()});
  const json replayed = late.next("reading");
  for (const char* key : {"seq", "hash", "text", "size_mm", "state"}) EXPECT_EQ(replayed[key], first[key]) << key;
  Watch after({"--since", first["seq"].dump()});
  press("bg", line("86.011"));
  EXPECT_EQ(after.next("reading")["text"], "86.011");
}

TEST_F(Reading, ListsOnlyWhatCountsUnlessAllIsAsked) {
  bore_gauge("line");
  const json first = press_at({"bore", "1", "top", "pin"}, "bg", line("86.010"));
  const json second = press_at({"bore", "1", "top", "pin"}, "bg", line("86.012"));
  const json far = press_at({"bore", "2", "top", "pin"}, "bg", line("86.999"));  // inside the window: kept, and out
  const json beyond = press_at({"bore", "3", "top", "pin"}, "bg", line("97.000"));
  const json counting = asked({"readings"});
  ASSERT_EQ(counting.size(), 2U);
  EXPECT_EQ(counting[0]["seq"], second["seq"]);
  EXPECT_EQ(counting[1]["seq"], far["seq"]);
  const json all = asked({"readings", "--all"});
  ASSERT_EQ(all.size(), 4U);
  EXPECT_EQ(reading_of(all, first["seq"])["counts"], false);
  EXPECT_EQ(reading_of(all, beyond["seq"])["state"], "suspect");
  EXPECT_EQ(asked({"readings", "--feature", "bore", "--index", "2"}).size(), 1U);
  EXPECT_EQ(asked({"readings", "--all", "--gauge", "bg"}).size(), 4U);
  EXPECT_EQ(asked({"readings", "--since", beyond["time"], "--all"}).size(), 1U);
}

}  // namespace
}  // namespace acceptance
