#include <fstream>
#include <sstream>

#include "playing.hpp"

namespace tenth::simulators {
namespace {

using namespace std::chrono_literals;
using namespace std::string_literals;

std::string gauges_of_the_bench() {
  std::ifstream stream(std::string(TENTH_SOURCE_DIR) + "/simulators/bench-of-all.toml");
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str().substr(text.str().find("[[gauge]]"));
}

/// The bench with a gauge of every format. What each sends is written out by hand from the descriptions in README.md.
class BenchOfAll : public testing::Test {
 protected:
  std::string pressed(const std::string& port, const std::vector<std::string>& gauges, std::size_t count) {
    const Reader reader(bench_.path(port));
    for (const auto& gauge : gauges) bench_.done("press " + gauge);
    return reader.read(count);
  }

  Played bench_{gauges_of_the_bench()};
};

TEST_F(BenchOfAll, ButtonsSendTheirFrames) {
  const std::vector bore(3, "bore-gauge"s), depth(3, "depth-gauge"s);
  EXPECT_EQ(pressed("bore-gauge", bore, 42), "FFFF000000041\rFFFF000000241\rFFFF800000141\r");
  EXPECT_EQ(pressed("depth-gauge", depth, 24), "000032\r\n000030\r\n100002\r\n");
  EXPECT_EQ(pressed("micrometer", {"micrometer", "micrometer"}, 28), "+0060,003 mmK\r+0059,998 mmK\r");
  EXPECT_EQ(pressed("micrometer-nr3", {"micrometer-nr3"}, 14), "6.0003E+01 mm\n");
}

TEST_F(BenchOfAll, ChannelsShareTheirBox) {
  EXPECT_EQ(pressed("box", {"box-b", "box-a", "box-a", "box-b"}, 34), "B:-2.001\rA:1.001\rA:1.002\rB:-2.002\r");
}

TEST_F(BenchOfAll, TheIndicatorStreams) {
  const Reader reader(bench_.path("indicator"));
  bench_.pass(100ms);
  EXPECT_EQ(reader.read(30), "1.500\r1.500\r1.500\r1.500\r1.500\r");
}

TEST_F(BenchOfAll, ProbesAnswer) {
  const Reader near(bench_.path("probe")), far(connected(bench_.address("probe-far")));
  bench_.hear();
  bench_.ask(near, "R\r");
  bench_.pass(20ms);
  EXPECT_EQ(near.read(11), "1.2345E+01\r");
  bench_.ask(far, "MEAS?\n");
  EXPECT_EQ(far.read(5), "-250\n");
}

// 101.234 is 0x42CA77CF (Python's struct.pack(">f", 101.234)), -12 is 0xFFF4, 55.5 is 0x425E0000. The CRCs are those
// of another implementation, bit by bit in Python.
TEST_F(BenchOfAll, RegistersAreRead) {
  const Reader bus(bench_.path("bus")), far(connected(bench_.address("height-far")));
  bench_.hear();
  bench_.ask(bus,
             "\x03\x04\0\0\0\x02"
             "\x70\x29"s);
  EXPECT_EQ(bus.read(9),
            "\x03\x04\x04\x42\xCA\x77\xCF"
            "\x8B\xA6"s);
  bench_.ask(bus,
             "\x03\x03\0\x10\0\x01"
             "\x84\x2D"s);
  EXPECT_EQ(bus.read(7),
            "\x03\x03\x02\xFF\xF4"
            "\x81\xF3"s);
  bench_.ask(far, "\0\x07\0\0\0\x06\x01\x04\0\0\0\x02"s);
  EXPECT_EQ(far.read(13), "\0\x07\0\0\0\x07\x01\x04\x04\0\0\x42\x5E"s);
}

}  // namespace
}  // namespace tenth::simulators
