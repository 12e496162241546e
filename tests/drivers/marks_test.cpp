#include "drivers/link/marks.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace tenth::drivers {

static bool operator==(const Received& a, const Received& b) {
  return a.byte == b.byte && a.damaged == b.damaged;
}

namespace {

using Bytes = std::vector<std::uint8_t>;
using Results = std::vector<Received>;

Results unmarked(const Bytes& bytes) {
  Marks marks;
  return marks.take(bytes);
}

// External: termios(3), PARMRK.
TEST(Marks, AreUndoneAsTheManualHasThem) {
  EXPECT_EQ(unmarked({'1', 0xFF, 0xFF, '2'}), (Results{{'1', false}, {0xFF, false}, {'2', false}}));
  EXPECT_EQ(unmarked({'1', 0xFF, 0x00, '2', '3'}), (Results{{'1', false}, {'2', true}, {'3', false}}));
  EXPECT_EQ(unmarked({0xFF, 0x00, 0x00}), (Results{{0x00, true}}));
  EXPECT_EQ(unmarked({0xFF, 0x00, 0xFF, '1'}), (Results{{0xFF, true}, {'1', false}}));
  EXPECT_EQ(unmarked({0x00, '1'}), (Results{{0x00, false}, {'1', false}}));
}

TEST(Marks, KeepAByteThatWaitedFromBeforeTheMarking) {
  EXPECT_EQ(unmarked({0xFF, '1'}), (Results{{0xFF, false}, {'1', false}}));
}

TEST(Marks, AnUnfinishedMarkIsOneDamagedByte) {
  Marks marks;
  EXPECT_TRUE(marks.take(Bytes{0xFF}).empty());
  EXPECT_EQ(marks.finish(), (Results{{0xFF, true}}));
  EXPECT_TRUE(marks.take(Bytes{0xFF, 0x00}).empty());
  EXPECT_EQ(marks.finish(), (Results{{0xFF, true}}));
  EXPECT_TRUE(marks.finish().empty());
}

/// What the kernel does, written apart from what undoes it.
Bytes marked(const Results& received) {
  Bytes bytes;
  for (const Received& r : received) {
    if (r.damaged) bytes.insert(bytes.end(), {0xFF, 0x00});
    if (!r.damaged && r.byte == 0xFF) bytes.push_back(0xFF);
    bytes.push_back(r.byte);
  }
  return bytes;
}

TEST(Marks, ComeBackWholeFromReadsOfAnySize) {
  EXPECT_TRUE(rc::check([] {
    const auto values = *rc::gen::container<Bytes>(rc::gen::element<std::uint8_t>(0x00, 0xFF, '1', '\r'));
    Results sent;
    for (const auto value : values) sent.push_back({value, *rc::gen::arbitrary<bool>()});
    const auto wire = marked(sent);
    const auto at = *rc::gen::inRange<std::size_t>(0, wire.size() + 1);
    Marks marks;
    Results got = marks.take(std::span(wire).first(at));
    for (const Received& r : marks.take(std::span(wire).subspan(at))) got.push_back(r);
    RC_ASSERT(got == sent);
    RC_ASSERT(marks.finish().empty());
  }));
}

}  // namespace
}  // namespace tenth::drivers
