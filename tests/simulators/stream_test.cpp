#include "simulators/stream.hpp"

#include <algorithm>
#include <set>
#include <sstream>

#include "playing.hpp"

namespace tenth::simulators {
namespace {

using namespace std::chrono_literals;

constexpr auto kIndicator = R"([[gauge]]
name = "bore"
path = "bore"
speaks = "line"
zero = "83.000"
held = "85.000"
stream_hz = 20
end = "lf"
[[gauge]]
name = "mic"
path = "mic"
speaks = "line"
)";

class Streaming : public testing::Test {
 protected:
  /// The frames that have come.
  std::vector<std::string> frames() {
    std::string bytes;
    while (!port_.silent()) bytes += port_.read(1);
    std::istringstream text(bytes);
    std::vector<std::string> found;
    for (std::string frame; std::getline(text, frame);) found.push_back(frame);
    return found;
  }

  Played bench_{kIndicator};
  Reader port_{bench_.path("bore")};
};

TEST_F(Streaming, SendsWhatItShowsAtItsRateUntilStopped) {
  bench_.pass(1s);
  EXPECT_TRUE(port_.silent()) << "it was not told to";
  EXPECT_EQ(bench_.done("stream bore start"), "");
  bench_.pass(1s);
  EXPECT_EQ(frames(), std::vector<std::string>(20, "2.000"));
  EXPECT_EQ(bench_.done("stream bore stop"), "");
  bench_.pass(1s);
  EXPECT_TRUE(port_.silent());
}

TEST_F(Streaming, StartedTwiceItSendsOnce) {
  bench_.done("stream bore start");
  bench_.pass(100ms);
  bench_.done("stream bore start");
  bench_.pass(100ms);
  EXPECT_EQ(frames().size(), 4U);
}

TEST_F(Streaming, LateFramesAreLeftOut) {
  bench_.done("stream bore start");
  bench_.player().run(bench_.now() + 10s);
  EXPECT_EQ(bench_.player().next(), bench_.now() + 10s + 50ms);
  EXPECT_EQ(frames().size(), 1U);
}

TEST_F(Streaming, ShowsWhatIsHeldAndDrifts) {
  bench_.done("stream bore start");
  bench_.done("hold bore 83.010");
  bench_.pass(50ms);
  bench_.done("drift bore 0.002");
  bench_.pass(50ms);
  bench_.done("switch bore in");
  bench_.pass(50ms);
  EXPECT_EQ(frames(), (std::vector<std::string>{"0.010", "0.012", "0.0005"})) << "0.012 / 25.4 = 0.00047";
}

TEST_F(Streaming, OneFrameIsSpoilt) {
  bench_.done("stream bore start");
  bench_.done("spoil bore dropped");
  bench_.pass(100ms);
  EXPECT_EQ(frames(), (std::vector<std::string>{"2.00", "2.000"}));
}

TEST_F(Streaming, ApproachesAndStays) {
  bench_.done("stream bore start");
  EXPECT_EQ(bench_.done("approach bore 83.000 over_ms 200"), "200 ms");
  bench_.pass(300ms);
  const auto shown = frames();  // 2 * (1 + cos(pi t / 200)) / 2 at 50, 100 and 150 ms, by hand
  EXPECT_EQ(shown, (std::vector<std::string>{"1.707", "1.000", "0.293", "0.000", "0.000", "0.000"}));
}

TEST_F(Streaming, IsRockedThroughTheDiameterAndStandsWhereItStood) {
  bench_.done("stream bore start");
  EXPECT_EQ(bench_.done("rock bore 83.012 passes 2 amplitude 0.4 period_ms 500"), "1000 ms");
  bench_.pass(1100ms);
  const auto shown = frames();
  ASSERT_EQ(shown.size(), 22U);
  const auto span = std::vector(shown.begin(), shown.begin() + 19);
  EXPECT_EQ(*std::ranges::min_element(span), "0.012");
  EXPECT_EQ(std::ranges::count(span, "0.012"), 2) << "at 250 and 750 ms";
  EXPECT_EQ(shown[4], "0.012");
  EXPECT_EQ(shown[9], "0.412") << "where the swing turns";
  EXPECT_EQ(shown[14], "0.012");
  EXPECT_EQ(shown[19], "2.000");
  EXPECT_EQ(shown[21], "2.000");
}

TEST_F(Streaming, RockedWithNoiseItIsTheSameForTheSameSeed) {
  Played again(kIndicator);
  const Reader other(again.path("bore"));
  for (auto* bench : {&bench_, &again}) {
    bench->done("stream bore start");
    bench->done("rock bore 83.012 passes 1 noise 0.002");
    bench->pass(1s);
  }
  const auto shown = frames();
  EXPECT_EQ(shown.size(), 20U);
  std::string all;
  for (const auto& frame : shown) all += frame + "\n";
  EXPECT_EQ(other.read(all.size()), all);
  EXPECT_NE(shown[0], shown[18]) << "without noise both would be alike";
}

TEST_F(Streaming, AnotherActEndsAMotion) {
  bench_.done("rock bore 83.012");
  bench_.done("hold bore 83.1");
  bench_.done("stream bore start");
  bench_.pass(50ms);
  EXPECT_EQ(frames(), std::vector<std::string>{"0.100"});
}

TEST_F(Streaming, RockedAfterAnApproachItStandsWhereThatEnds) {
  bench_.done("approach bore 83.1 over_ms 100");
  bench_.pass(50ms);
  bench_.done("rock bore 83.012 passes 1 period_ms 100");
  bench_.pass(100ms);
  bench_.done("stream bore start");
  bench_.pass(50ms);
  EXPECT_EQ(frames(), std::vector<std::string>{"0.100"});
}

TEST_F(Streaming, MutedOrHungUpItsFramesAreLost) {
  bench_.done("stream bore start");
  bench_.done("mute bore");
  bench_.pass(1s);
  EXPECT_TRUE(port_.silent());
  bench_.done("unmute bore");
  bench_.done("hangup bore");
  bench_.pass(1s);
  bench_.done("return bore");
  const Reader back(bench_.path("bore"));
  EXPECT_TRUE(back.silent());
  bench_.pass(50ms);
  EXPECT_EQ(back.read(6), "2.000\n");
}

TEST(Streams, FromTheBeginning) {
  Played bench("[[gauge]]\nname='g'\npath='g'\nspeaks='bcd13'\nstreams=true\nheld='1'\n");
  const Reader port(bench.path("g"));
  bench.pass(200ms);
  EXPECT_EQ(port.read(28), "FFFF000100030\rFFFF000100030\r") << "10 a second where nothing else is said";
}

TEST(Streams, SharedByTwoChannelsGoFrameByFrame) {
  Played bench(
      "[[gauge]]\nname='a'\npath='a'\nspeaks='line'\nchannel='A'\nstreams=true\n"
      "[[gauge]]\nname='b'\nport_of='a'\nspeaks='line'\nchannel='B'\nseparator=':'\nstreams=true\nheld='2'\n");
  const Reader port(bench.path("a"));
  bench.pass(100ms);
  EXPECT_EQ(port.read(16), "A 0.000\rB:2.000\r");
  EXPECT_EQ(bench.done("press b 3"), "B:3.000\\x0D");
  EXPECT_EQ(bench.done("hangup b"), "");
  EXPECT_TRUE(hung_up(port.descriptor()));
  EXPECT_EQ(bench.done("press a 3"), "error: a is hung up: return it first");
  EXPECT_EQ(bench.done("return a").substr(0, 9), "/dev/pts/");
  EXPECT_EQ(bench.done("press b 3"), "B:3.000\\x0D");
}

}  // namespace
}  // namespace tenth::simulators
