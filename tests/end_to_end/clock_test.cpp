// What time does: temperatures that were told run out, and a step of the wall clock is written down.
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/faked_clock.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

using std::chrono::hours;
using std::chrono::seconds;

class Warmth : public FakedClock {
 protected:
  void SetUp() override {
    FakedClock::SetUp();
    engine(inline_four);
    gauge("bg", {"--unit", "mm"});
    done({"at", "bore", "1", "top", "pin"});
    done({"temperature", "--part", "30", "--gauge", "20"});
  }
  bool corrected() { return !press("bg", line("86.010"))["size_20c_mm"].is_null(); }
};

TEST_F(Warmth, HoldsForFourHours) {
  later(hours(4) - seconds(30));
  EXPECT_TRUE(corrected());
  later(hours(4) + seconds(1));
  EXPECT_FALSE(corrected());
  EXPECT_EQ(asked({"check"})["features"][0]["corrected"], false);
  done({"temperature", "--part", "24", "--gauge", "22"});
  EXPECT_TRUE(corrected());
}

class ShortWarmth : public Warmth {
  std::string config() const override { return "[intake]\nsettle_ms = 0\ntemperature_life_h = 1\n"; }
};

TEST_F(ShortWarmth, ItsLifeIsConfigured) {
  later(hours(1) - seconds(30));
  EXPECT_TRUE(corrected());
  later(hours(1) + seconds(1));
  EXPECT_FALSE(corrected());
}

class SteppedClock : public FakedClock {
 protected:
  void SetUp() override {
    setenv("FAKETIME_DONT_FAKE_MONOTONIC", "1", 1);
    FakedClock::SetUp();
    unsetenv("FAKETIME_DONT_FAKE_MONOTONIC");
    engine(inline_four);
    gauge("mic", {"--unit", "mm"});
    done({"at", "main_journal", "1"});
  }
  json press() { return Bench::press("mic", line("53.990")); }
};

TEST_F(SteppedClock, AStepIsAnEntryBeforeWhatFollows) {
  const json before = press();
  later(hours(1));
  const json after = press();
  EXPECT_EQ(before["time"].get<std::string>().size(), after["time"].get<std::string>().size());
  EXPECT_GT(after["time"], before["time"]);
  const auto steps = entries_of_kind(daemon_.ledger(), "clock");
  ASSERT_EQ(steps.size(), 1U);
  EXPECT_GT(steps[0].seq, before["seq"].get<long long>());
  EXPECT_LT(steps[0].seq, after["seq"].get<long long>());
}

TEST_F(SteppedClock, SteppingBackLosesNoOrder) {
  later(hours(3));
  const json first = press();
  later(seconds(0));
  const json second = press();
  EXPECT_LT(second["time"], first["time"]);
  EXPECT_EQ(second["seq"], asked({"readings"})[0]["seq"]) << "the later one counts, whatever its clock said";
  EXPECT_EQ(entries_of_kind(daemon_.ledger(), "clock").size(), 2U);
  EXPECT_EQ(tenth({"audit", "--ledger", daemon_.ledger()}).status, 0);
}

TEST_F(SteppedClock, WithoutAStepNoneIsWritten) {
  press();
  press();
  EXPECT_EQ(entries_of_kind(daemon_.ledger(), "clock").size(), 0U);
}

}  // namespace
}  // namespace acceptance
