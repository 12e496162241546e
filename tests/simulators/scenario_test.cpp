#include "simulators/scenario.hpp"

#include <gtest/gtest.h>

#include <ostream>

namespace tenth::simulators {
namespace {

constexpr auto kWhole = R"(title = "Two gauges"
stay = true
play = ["wait 20", "press bore", "press mic 60.003"]

[[gauge]]
name = "bore"
path = "ports/bore"
speaks = "bcd13"
unit = "in"
zero = "3.7800"
offset = "0.0001"
values = ["3.7802", "3.7799"]

[[gauge]]
name = "mic"
path = "ports/mic"
speaks = "line"
decimals = 2
end = "crlf"
sign = "always"
point = ","
names_unit = true
)";

TEST(ParseScenario, ReadsEveryKey) {
  const auto scenario = parse_scenario(kWhole, "two.toml").value();
  EXPECT_EQ(scenario.title, "Two gauges");
  EXPECT_TRUE(scenario.stay);
  EXPECT_EQ(scenario.play.size(), 3U);
  const auto& bore = *find_gauge(scenario.gauges, "bore");
  EXPECT_EQ(bore.path, "ports/bore");
  EXPECT_EQ(bore.display.speaks, Speaks::bcd13);
  EXPECT_EQ(bore.display.unit, Unit::in);
  EXPECT_EQ(bore.display.decimals, 4);
  EXPECT_EQ(bore.zero, Amount{3'780'000});
  EXPECT_EQ(bore.offset, Amount{100});
  EXPECT_EQ(bore.values, (std::vector<Amount>{{3'780'200}, {3'779'900}}));
  const auto& mic = find_gauge(scenario.gauges, "mic")->display;
  EXPECT_EQ(mic.decimals, 2);
  EXPECT_EQ(mic.end, "\r\n");
  EXPECT_TRUE(mic.plus);
  EXPECT_EQ(mic.point, ',');
  EXPECT_TRUE(mic.names_unit);
}

TEST(ParseScenario, LeavesTheRestAsUsual) {
  const auto scenario = parse_scenario("title='t'\n[[gauge]]\nname='g'\npath='p'\nspeaks='line'\n", "t.toml").value();
  EXPECT_FALSE(scenario.stay);
  EXPECT_TRUE(scenario.play.empty());
  const auto& gauge = scenario.gauges.at(0);
  EXPECT_EQ(gauge.display.unit, Unit::mm);
  EXPECT_EQ(gauge.display.decimals, 3);
  EXPECT_EQ(gauge.display.end, "\r");
  EXPECT_EQ(gauge.display.point, '.');
  EXPECT_FALSE(gauge.display.plus || gauge.display.names_unit || gauge.zero);
  EXPECT_EQ(find_gauge(scenario.gauges, "other"), nullptr);
}

struct Wrong {
  const char *text, *error;
};

void PrintTo(const Wrong& wrong, std::ostream* out) {
  *out << testing::PrintToString(wrong.error);
}

class WrongScenario : public testing::TestWithParam<Wrong> {};

TEST_P(WrongScenario, NamesThePlaceAndWhatWouldBeRight) {
  const auto read = parse_scenario(GetParam().text, "s.toml");
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().substr(0, std::string_view(GetParam().error).size()), GetParam().error);
}

// Each gauge begins on line 2 of its scenario.
#define GAUGE "title = 't'\n[[gauge]]\nname = 'g'\npath = 'p'\nspeaks = 'line'\n"

INSTANTIATE_TEST_SUITE_P(
    Errors, WrongScenario,
    testing::Values(
        Wrong{"title = ", "s.toml:1:9: this is no TOML: "},
        Wrong{"[[gauge]]\nname='g'\npath='p'\nspeaks='line'", "s.toml:1:1: 'title' is missing: write title = "},
        Wrong{"title = 3", "s.toml:1:9: title is a text: put it in quotes"},
        Wrong{"title = 't'", "s.toml:1:1: no 'gauge': begin each with a line [[gauge]]"},
        Wrong{"title = 't'\ngauge = 7", "s.toml:2:9: no 'gauge': begin each with"},
        Wrong{"title = 't'\n[gauge]", "s.toml:2:1: no 'gauge': begin each with"},
        Wrong{"title = 't'\n[[gauge]]\npath = 'p'\nspeaks = 'line'", "s.toml:2:1: 'name' is missing: write name = "},
        Wrong{"title = 't'\n[[gauge]]\nname = 'g'\npath = 'p'", "s.toml:2:1: 'speaks' is missing: write speaks = "},
        Wrong{"title = 't'\n[[gauge]]\nname = 'g h'\npath = 'p'\nspeaks = 'line'", "s.toml:3:8: 'g h' holds a blank"},
        Wrong{"title = 't'\n[[gauge]]\nname = 'g'\npath = 'p'\nspeaks = 'morse'",
              "s.toml:5:10: 'morse' is unknown: speaks is line, bcd13, bin24, query, modbus"},
        Wrong{GAUGE "colour = 'red'",
              "s.toml:6:1: unknown key 'colour': known here are channel, decimals, end, exponent, held, lead, name, "
              "names_unit, offset, path, point, port_of, separator, sign, speaks, status, stream_hz, streams, suffix, "
              "tcp, unit, values, width, zero"},
        Wrong{GAUGE "unit = 'inch'", "s.toml:6:8: 'inch' is unknown: unit is mm, in"},
        Wrong{GAUGE "decimals = 7", "s.toml:6:12: decimals is a whole number from 0 to 6"},
        Wrong{GAUGE "decimals = '3'", "s.toml:6:12: decimals is a whole number from 0 to 6"},
        Wrong{GAUGE "names_unit = 'yes'", "s.toml:6:14: names_unit is true or false"},
        Wrong{GAUGE "zero = 3.78", "s.toml:6:8: zero is a text: put it in quotes"},
        Wrong{GAUGE "zero = 'three'", "s.toml:6:8: 'three' is no value: write a decimal such as"},
        Wrong{GAUGE "values = '1'", "s.toml:6:10: values is a list of texts"},
        Wrong{GAUGE "values = ['1', 2]", "s.toml:6:16: values is a list of texts: put this in quotes"},
        Wrong{GAUGE "values = ['1', 'x']", "s.toml:6:16: 'x' is no value"},
        Wrong{GAUGE "decimals = 6\nzero = '-9000'\nvalues = ['1', '9000']",
              "s.toml:8:16: the value is too large for the digits of a line frame"},
        Wrong{GAUGE "offset = '0.001'\nvalues = ['9999.999']", "s.toml:7:11: the value is too large for the digits"},
        Wrong{GAUGE "[[gauge]]\nname = 'g'\npath = 'q'\nspeaks = 'line'", "s.toml:7:8: 'g' stands twice"},
        Wrong{GAUGE "[[gauge]]\nname = 'h'\npath = 'p'\nspeaks = 'line'", "s.toml:8:8: 'p' stands twice"},
        Wrong{"play = ['wait 1', 'pres g']\n" GAUGE, "s.toml:1:19: 'pres' is not understood: write press"},
        Wrong{"play = ['press h']\n" GAUGE, "s.toml:1:9: no gauge 'h': the gauges are g"},
        Wrong{"stay = 1\n" GAUGE, "s.toml:1:8: stay is true or false"},
        Wrong{"speed = 2\n" GAUGE, "s.toml:1:1: unknown key 'speed': known here are gauge, play, seed, stay, title"}));

TEST(ParseScenario, Bcd13HasFiveDecimalsAtMost) {
  const auto read = parse_scenario("title='t'\n[[gauge]]\nname='g'\npath='p'\nspeaks='bcd13'\ndecimals = 6", "s.toml");
  EXPECT_EQ(read.error(), "s.toml:6:12: decimals is a whole number from 0 to 5");
}

}  // namespace
}  // namespace tenth::simulators
