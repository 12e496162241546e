#include "simulators/live.hpp"

#include <gtest/gtest.h>

#include "bench.hpp"

namespace tenth::simulators {
namespace {

using namespace std::chrono_literals;

constexpr Time kBegin{};

Gauge comparator() {
  Gauge gauge;
  gauge.name = "bore";
  gauge.zero = Amount{83'000'000};
  gauge.offset = {1000};
  gauge.held = {84'000'000};
  return gauge;
}

class ALiveGauge : public testing::Test {
 protected:
  Gauge gauge_ = comparator();
  Outlet outlet_;
  Live live_{gauge_, outlet_, 1};
};

TEST_F(ALiveGauge, ShowsItsSizeLessItsZeroWithItsError) {
  EXPECT_EQ(live_.size(kBegin), Amount{84'000'000});
  EXPECT_EQ(live_.shown({83'002'000}), Amount{3000});
  EXPECT_EQ(live_.frame_of({83'002'000}, live_.display()).value(), "0.003\r");
  EXPECT_EQ(live_.frame_of({99'999'000'000}, live_.display()).error(),
            "bore: the value is too large for the digits of a line frame");
  live_.unit = Unit::in;
  EXPECT_EQ(live_.frame_of({108'399'000}, live_.display()).value(), "1.0000\r");
}

TEST_F(ALiveGauge, IsMovedAndStandsThereAfterwards) {
  live_.move(Motion::approaching({.gauge = "", .value = {83'000'000}, .over = 100ms}, live_.held), kBegin);
  EXPECT_EQ(live_.size(kBegin + 50ms), Amount{83'500'000});
  EXPECT_EQ(live_.size(kBegin + 100ms), Amount{83'000'000});
  EXPECT_FALSE(live_.motion);
  EXPECT_EQ(live_.size(kBegin), Amount{83'000'000}) << "it is over";
}

TEST_F(ALiveGauge, OneSpoilIsTakenOnce) {
  live_.spoil = {.gauge = "bore", .slip = Slip::exception, .code = 6};
  const auto taken = live_.take_spoil();
  EXPECT_EQ(taken.slip, Slip::exception);
  EXPECT_EQ(taken.code, 6);
  EXPECT_EQ(live_.take_spoil().slip, Slip::none);
}

TEST_F(ALiveGauge, SendsOverItsOutletOnly) {
  EXPECT_EQ(live_.send("1").error(), "bore is hung up: return it first");
  const Folder folder;
  outlet_.link = folder / "bore";
  ASSERT_TRUE(outlet_.open());
  EXPECT_TRUE(live_.send("1"));
  EXPECT_EQ(Reader(folder / "bore").read(1), "1");
}

TEST(AnOutlet, ForgetsHalfAQuestionWhenItOpens) {
  const Folder folder;
  Outlet outlet{.link = folder / "bore", .address = {}, .wire = {}, .heard = "half"};
  ASSERT_TRUE(outlet.open());
  EXPECT_EQ(outlet.heard, "");
}

TEST(AnOutlet, OfTcpKeepsThePortThatWasChosen) {
  Outlet outlet{.link = {}, .address = Address{"127.0.0.1", 0}, .wire = {}, .heard = {}};
  ASSERT_TRUE(outlet.open());
  const auto where = outlet.wire->where();
  EXPECT_EQ(where, "127.0.0.1:" + std::to_string(outlet.address->port));
  outlet.wire.reset();
  ASSERT_TRUE(outlet.open());
  EXPECT_EQ(outlet.wire->where(), where);
}

TEST(AnOutlet, SaysWhyItCannotOpen) {
  Outlet first{.link = {}, .address = Address{"127.0.0.1", 0}, .wire = {}, .heard = {}};
  ASSERT_TRUE(first.open());
  Outlet second{.link = {}, .address = first.address, .wire = {}, .heard = {}};
  EXPECT_EQ(second.open().error(), first.wire->where() + ": Address already in use");
}

}  // namespace
}  // namespace tenth::simulators
