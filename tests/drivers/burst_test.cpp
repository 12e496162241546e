#include "drivers/burst.hpp"

#include <gtest/gtest.h>

namespace tenth::drivers {
namespace {

constexpr std::int64_t ms = 1'000'000;
/// Steady clocks do not begin at zero.
constexpr std::int64_t start = 7'000'000 * ms;

class BurstTest : public testing::Test {
 protected:
  /// The events by letter (m a measurement, f a fault) as they are judged: M is a damaged measurement.
  std::string take(const std::string& letters, std::int64_t at_ms, bool whole_by_length = false) {
    std::vector<Event> events;
    for (const char letter : letters) events.push_back(letter == 'm' ? Event(Measurement{}) : Event(Fault{}));
    std::string judged;
    for (const Judged& one : burst_.take(std::move(events), start + at_ms * ms, whole_by_length)) {
      judged.push_back(std::holds_alternative<Fault>(one.event) ? 'f' : one.damaged ? 'M' : 'm');
      EXPECT_FALSE(std::holds_alternative<Fault>(one.event) && one.damaged);
    }
    return judged;
  }

  Burst burst_;
};

TEST_F(BurstTest, LeavesNumbersWithoutFaultsAlone) {
  burst_.opened(false);
  EXPECT_EQ(take("mmm", 0), "mmm");
  EXPECT_EQ(take("m", 1), "m");
}

TEST_F(BurstTest, HoldsNumbersBesideAFaultInTheSameChunk) {
  burst_.opened(false);
  EXPECT_EQ(take("mfm", 0), "MfM");
  EXPECT_EQ(take("mf", 1000), "Mf");
}

TEST_F(BurstTest, HoldsNumbersAfterAFaultUntilAPause) {
  burst_.opened(false);
  EXPECT_EQ(take("f", 0), "f");
  EXPECT_EQ(take("m", 199), "M");
  EXPECT_EQ(take("m", 398), "M");
  EXPECT_EQ(take("m", 598), "m");
}

TEST_F(BurstTest, BytesWithoutAnEventKeepTheBurstGoing) {
  burst_.opened(false);
  EXPECT_EQ(take("f", 0), "f");
  EXPECT_EQ(take("", 150), "");
  EXPECT_EQ(take("m", 300), "M");
}

TEST_F(BurstTest, HoldsTheFirstFrameWhoseBeginningWasNotSeen) {
  burst_.opened(true);
  EXPECT_EQ(take("", 0), "");
  EXPECT_EQ(take("m", 5000), "M");
  EXPECT_EQ(take("m", 5001), "m");
}

TEST_F(BurstTest, AFixedLengthShowsThatTheBeginningWasSeen) {
  burst_.opened(true);
  EXPECT_EQ(take("mm", 0, true), "mm");
}

TEST_F(BurstTest, AFirstFrameThatIsAFaultUsesUpTheDoubt) {
  burst_.opened(true);
  EXPECT_EQ(take("f", 0), "f");
  EXPECT_EQ(take("m", 1000), "m");
}

TEST_F(BurstTest, OpeningBeginsAnew) {
  burst_.opened(true);
  EXPECT_EQ(take("f", 0), "f");
  burst_.opened(false);
  EXPECT_EQ(take("m", 1), "m");
  burst_.opened(true);
  EXPECT_EQ(take("m", 2), "M");
}

}  // namespace
}  // namespace tenth::drivers
