// Bytes that are no reading: each is told with its reason, and the good frames around them are kept.
#include <thread>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

class Fault : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
  }
  void gauge_of(const std::string& profile) {
    gauge("g", {"--unit", "mm", "--measures", "inside"}, profile);
    done({"at", "bore", "1", "top", "pin"});
  }
  // Each frame is a fault of this reason and no reading; at the end a good frame is read.
  void faults(const std::vector<std::string>& frames, const std::string& why, const std::string& good) {
    for (const std::string& frame : frames) {
      cable("g").send(frame);
      const json fault = watch_->next("fault");
      EXPECT_EQ(fault["why"], why) << "for " << json(frame).dump(-1, ' ', false, json::error_handler_t::replace);
      EXPECT_EQ(fault["gauge"], "g");
      EXPECT_GT(fault["bytes"].get<int>(), 0);
    }
    quiet();
    EXPECT_EQ(press("g", good)["state"], "kept");
    EXPECT_EQ(asked({"readings", "--all"}).size(), 1U);
  }
  // A burst of bytes ends with a pause of 200 ms: the one thing here that only time can do.
  static void quiet() { std::this_thread::sleep_for(Millis(260)); }
};

TEST_F(Fault, WrongBcdFrames) {
  gauge_of("bcd13");
  faults({"FFFF10860123 \r", "FFFF108601230\r", "FFF0008601230\r", "FFFF0A8601230\r", "FFFF008601260\r",
          "FFFF008601232\r", "FFFF00860123\r", "FFFF0086012300\r", "GFFF008601230\r"},
         "bad_frame", bcd13("86.012"));
}

TEST_F(Fault, WrongBinaryFrames) {
  gauge_of("bin24");
  faults({"202199\r", "402199\r", "602199\r", "02199\r", "0002199\r", "00219G\r", "86.010\r", "-02199\r"}, "bad_frame",
         bin24(8601));
}

TEST_F(Fault, WrongLines) {
  gauge_of("line");
  faults({"ERR\r", "86.0.1\r", "86010\r", "86.0101234\r", "--86.010\r", "86.010 kg\r", "1.234567E-9\r", "9999E99\r",
          "0x56\r"},
         "bad_frame", line("86.010"));
}

TEST_F(Fault, NothingBeforeThePointIsNoNumber) {
  gauge_of("line");
  faults({".010\r", "-\r", "nan\r", "inf\r", "A 86.010\r", "86.010K\r"}, "bad_frame", line("86.010"));
}

TEST_F(Fault, ALineWithoutAnEndIsTooLong) {
  gauge_of("line");
  cable("g").send(std::string(5000, '7') + "\r");
  const json fault = watch_->next("fault");
  EXPECT_EQ(fault["why"], "too_long");
  quiet();
  EXPECT_EQ(press("g", line("86.010"))["state"], "kept");
  EXPECT_EQ(asked({"readings", "--all"}).size(), 1U) << "what is left of a frame too long is no frame";
}

TEST_F(Fault, NoiseIsShownEscaped) {
  gauge_of("line");
  cable("g").send(std::string("\x01\x80\xff\\\x1b[2J\r"));
  const json fault = watch_->next("fault");
  EXPECT_EQ(fault["raw"], "\\x01\\x80\\xFF\\x5C\\x1B[2J");
  EXPECT_EQ(fault["bytes"], 8);
}

TEST_F(Fault, AnEmptyFrameIsNothing) {
  gauge_of("line");
  cable("g").send("\r\r\n\n\r\n");
  const json reading = press("g", "86.010\r");
  EXPECT_EQ(reading["state"], "kept") << reading;
  EXPECT_FALSE(watch_->heard("fault"));
  EXPECT_EQ(asked({"readings", "--all"}).size(), 1U);
}

TEST_F(Fault, ALateLfIsNothing) {
  gauge_of("line");
  press("g", "86.010\r");
  cable("g").send("\n");
  const json reading = press("g", "86.011\r\n");
  EXPECT_EQ(reading["text"], "86.011");
  EXPECT_EQ(reading["state"], "kept") << reading;
  EXPECT_FALSE(watch_->heard("fault"));
}

TEST_F(Fault, ALateLfIsNothingForDigits) {
  gauge_of("bcd13");
  press("g", bcd13("86.010"));
  cable("g").send("\n");
  const json reading = press("g", bcd13("86.011") + "\n");
  EXPECT_EQ(reading["text"], "86.011");
  EXPECT_EQ(reading["raw"], "FFFF008601130");
  EXPECT_EQ(reading["state"], "kept") << reading;
  EXPECT_FALSE(watch_->heard("fault"));
}

TEST_F(Fault, AreTenAMinuteAndThenACount) {
  gauge_of("line");
  std::string burst;
  for (int i = 0; i < 500; ++i) burst += "rubbish\r";
  cable("g").send(burst);
  for (int i = 0; i < 10; ++i) EXPECT_EQ(watch_->next("fault")["why"], "bad_frame");
  quiet();
  EXPECT_EQ(press("g", line("86.010"))["state"], "kept");
  EXPECT_FALSE(watch_->heard("fault", [](const json& event) { return !event.contains("count"); }));
  EXPECT_LE(entries_of_kind(daemon_.ledger(), "fault").size(), 11U);
}

TEST_F(Fault, TheBytesDroppedStandWithTheNextReading) {
  gauge_of("line");
  cable("g").send("rubbish\r");
  watch_->next("fault");
  quiet();
  const json reading = press("g", line("86.010"));
  const auto rows = entries(daemon_.ledger(), "seq = " + reading["seq"].dump());
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_GE(rows[0].json()["dropped"].get<int>(), 7) << rows[0].body;
  const json next = press("g", line("86.010"));
  EXPECT_EQ(entries(daemon_.ledger(), "seq = " + next["seq"].dump()).at(0).json()["dropped"], 0);
}

TEST_F(Fault, OfOneGaugeHarmsNoOther) {
  gauge_of("line");
  gauge("h", {"--unit", "mm"}, "bin24");
  std::string burst(200000, '\x55');
  std::thread noise([&] { cable("g").send(burst); });
  for (int i = 0; i < 10; ++i) EXPECT_EQ(press("h", bin24(8601))["state"], "kept");
  noise.join();
  EXPECT_EQ(watch_->next("fault")["why"], "too_long");
}

TEST_F(Fault, TwoFramesInOneWriteAreTwoReadings) {
  gauge_of("line");
  cable("g").send("86.010\r\n86.011\r\n");
  EXPECT_EQ(watch_->next("reading")["text"], "86.010");
  const json second = watch_->next("reading");
  EXPECT_EQ(second["text"], "86.011");
  EXPECT_EQ(second["state"], "kept") << second;
}

}  // namespace
}  // namespace acceptance
