#include <termios.h>

#include <algorithm>

#include "playing.hpp"

namespace tenth::simulators {
namespace {

using namespace std::chrono_literals;

constexpr auto kMic = "[[gauge]]\nname='mic'\npath='mic'\nspeaks='line'\nheld='1.5'\nstatus='K'\n";

class Faulty : public testing::Test {
 protected:
  /// Lets time pass in steps of a millisecond, reading all that comes.
  std::string read_for(std::chrono::milliseconds time) {
    std::string bytes;
    for (auto left = time; left > 0ms; left -= 1ms) {
      bench_.pass(1ms);
      pollfd waiting{port_.descriptor(), POLLIN, 0};
      while (::poll(&waiting, 1, 0) > 0) {
        std::array<char, 4096> some;
        const auto count = ::read(port_.descriptor(), some.data(), some.size());
        if (count <= 0) break;
        bytes.append(some.data(), static_cast<std::size_t>(count));
      }
    }
    return bytes;
  }

  /// What is left on its way when all was sent.
  std::string rest(std::size_t count) { return port_.read(count); }

  Played bench_{kMic};
  Reader port_{bench_.path("mic")};
};

TEST_F(Faulty, OneFrameHasAnotherStatus) {
  EXPECT_EQ(bench_.done("press mic 2 status L"), "2.000L\\x0D");
  EXPECT_EQ(bench_.done("press mic 2"), "2.000K\\x0D");
}

TEST_F(Faulty, AByteIsMissing) {
  EXPECT_EQ(bench_.done("press mic 83.012 dropped"), "83.02K\\x0D");
}

TEST_F(Faulty, NoiseIsTheSameForTheSameSeed) {
  Played again(kMic);
  const auto noise = bench_.done("noise mic 40");
  EXPECT_EQ(again.done("noise mic 40"), noise);
  EXPECT_NE(bench_.done("noise mic 40"), noise);
  const auto bytes = port_.read(80);
  EXPECT_EQ(bytes.size(), 80U);
  EXPECT_TRUE(std::ranges::any_of(bytes, [](char c) { return c < 0; }));
}

TEST_F(Faulty, AFloodOfFramesHasItsRateAndLength) {
  EXPECT_EQ(bench_.done("flood mic 70000 2 frames"), "");
  auto half = read_for(1s);
  half += rest(70'000 - half.size());
  EXPECT_EQ(half.size(), 70'000U);
  auto all = half + read_for(1100ms);
  all += rest(140'000 - all.size());
  ASSERT_EQ(all.size(), 140'000U);
  for (std::size_t i = 0; i < all.size(); i += 7) ASSERT_EQ(all.substr(i, 7), "1.500K\r") << i;
  EXPECT_TRUE(port_.silent());
  EXPECT_FALSE(bench_.player().next()) << "nothing goes on";
}

TEST_F(Faulty, AFloodOfNoiseLeavesOtherActsAlone) {
  bench_.done("flood mic 100000 1");
  EXPECT_EQ(bench_.done("press mic 2"), "2.000K\\x0D");
  EXPECT_GT(read_for(100ms).size(), 5'000U);
}

TEST_F(Faulty, AFloodThatNobodyReadsIsGivenUp) {
  bench_.done("flood mic 10000000 60");
  bench_.pass(3s);
  EXPECT_FALSE(bench_.player().next());
}

TEST_F(Faulty, ALineWithoutAnEnd) {
  bench_.done("endless mic 50000");
  auto line = read_for(60ms);
  line += rest(50'000 - line.size());
  EXPECT_EQ(line, std::string(50'000, '1'));
  EXPECT_TRUE(port_.silent());
  EXPECT_FALSE(bench_.player().next());
}

TEST_F(Faulty, WhatFindsNoRoomAtFirstComesLater) {
  bench_.done("endless mic 50000");
  bench_.pass(200ms);  // nobody reads: a pseudo-terminal keeps less than that
  auto line = read_for(100ms);
  line += rest(50'000 - line.size());
  EXPECT_EQ(line, std::string(50'000, '1'));
  EXPECT_TRUE(port_.silent());
}

TEST_F(Faulty, AMutedFloodIsNotHeard) {
  bench_.done("mute mic");
  bench_.done("flood mic 1000 1");
  bench_.done("endless mic 100");
  EXPECT_EQ(bench_.done("raw mic x"), "muted");
  EXPECT_EQ(read_for(100ms), "");
}

TEST(FaultyTcp, HangsUpAndReturnsOnTheSamePort) {
  Played bench("[[gauge]]\nname='g'\ntcp='127.0.0.1:0'\npath='g'\nspeaks='line'\n");
  const auto address = bench.address("g");
  EXPECT_EQ(bench.done("press g 1"), "error: g: nobody is connected to " + address);
  const Reader before(connected(address));
  bench.hear();
  EXPECT_EQ(bench.done("press g 1"), "1.000\\x0D");
  EXPECT_EQ(bench.done("hangup g"), "");
  EXPECT_EQ(before.read(7), "1.000\r") << "then the end";
  EXPECT_EQ(connected(address), -1);
  EXPECT_FALSE(std::filesystem::is_symlink(bench.path("g")));
  EXPECT_EQ(bench.done("return g"), address);
  const Reader after(connected(bench.address("g")));
  bench.hear();
  EXPECT_EQ(bench.done("press g 2"), "2.000\\x0D");
  EXPECT_EQ(after.read(6), "2.000\r");
}

TEST(FaultyTcp, CarriesTenMegabytesASecond) {
  Played bench("[[gauge]]\nname='g'\ntcp='127.0.0.1:0'\npath='g'\nspeaks='line'\n");
  const Reader client(connected(bench.address("g")));
  bench.hear();
  bench.done("flood g 10000000 1");
  std::size_t count = 0;
  for (int i = 0; i < 100; ++i) {
    bench.pass(1ms);
    count += client.read(10'000).size();
  }
  EXPECT_EQ(count, 1'000'000U);
}

// What README.md says of parity: neither it nor its mark can come through a pseudo-terminal.
TEST_F(Faulty, APseudoTerminalDoublesTheMarkOfParity) {
  termios settings{};
  ASSERT_EQ(::tcgetattr(port_.descriptor(), &settings), 0);
  settings.c_iflag |= PARMRK | INPCK;
  settings.c_iflag &= ~static_cast<tcflag_t>(IGNPAR);
  settings.c_cflag |= PARENB;
  ASSERT_EQ(::tcsetattr(port_.descriptor(), TCSANOW, &settings), 0);
  ASSERT_EQ(::tcgetattr(port_.descriptor(), &settings), 0);
  EXPECT_EQ(settings.c_cflag & PARENB, 0U);
  bench_.done("raw mic 1\\xFF\\x002");
  EXPECT_EQ(port_.read(5), std::string("1\xFF\xFF\0"
                                       "2",
                                       5));
}

}  // namespace
}  // namespace tenth::simulators
