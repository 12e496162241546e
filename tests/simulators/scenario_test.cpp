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

/// The one gauge of a scenario, of which these lines are left to say.
Gauge gauge(const std::string& lines) {
  return parse_scenario("title = 't'\n[[gauge]]\nname = 'g'\n" + lines, "t.toml").value().gauges.at(0);
}

TEST(ParseScenario, ReadsTheOdditiesOfLines) {
  const auto shown = gauge(R"(path = 'p'
speaks = 'line'
width = 9
lead = '0'
exponent = true
channel = 'A'
separator = ':'
suffix = ';'
status = 'K')")
                         .display;
  EXPECT_EQ(shown.width, 9);
  EXPECT_EQ(shown.lead, '0');
  EXPECT_TRUE(shown.exponent);
  EXPECT_EQ(shown.channel, "A");
  EXPECT_EQ(shown.separator, ":");
  EXPECT_EQ(shown.suffix, ";");
  EXPECT_EQ(shown.status, "K");
  EXPECT_EQ(gauge("path = 'p'\nspeaks = 'line'\nchannel = 'A'").display.separator, " ");
}

TEST(ParseScenario, ReadsQueries) {
  const auto probe = gauge(R"(path = 'p'
speaks = 'query'
ask = "R\r"
number = 'nr3'
sign = 'always'
delay_ms = 20
held = '12.5')");
  EXPECT_EQ(probe.ask, "R\r");
  EXPECT_EQ(probe.display.number, Number::nr3);
  EXPECT_TRUE(probe.display.plus);
  EXPECT_EQ(probe.delay, std::chrono::milliseconds(20));
  EXPECT_EQ(probe.held, Amount{12'500'000});
  EXPECT_EQ(gauge("path = 'p'\nspeaks = 'query'\nask = 'R'\nnumber = 'nr1'").display.number, Number::nr1);
  EXPECT_EQ(gauge("path = 'p'\nspeaks = 'query'\nask = 'R'").display.number, Number::nr2);
}

TEST(ParseScenario, ReadsModbus) {
  const auto map = gauge(R"(path = 'p'
speaks = 'modbus'
unit_id = 3
table = 'holding'
address = 16
type = 'uint16'
order = 'BADC')")
                       .map;
  EXPECT_EQ(map.unit_id, 3);
  EXPECT_EQ(map.table, Table::holding);
  EXPECT_EQ(map.address, 16);
  EXPECT_EQ(map.type, RegisterType::uint16);
  EXPECT_EQ(map.order, ByteOrder::badc);
  const auto usual = gauge("path = 'p'\nspeaks = 'modbus'").map;
  EXPECT_EQ(usual.unit_id, 1);
  EXPECT_EQ(usual.table, Table::input);
  EXPECT_EQ(usual.type, RegisterType::float32);
  EXPECT_EQ(usual.order, ByteOrder::abcd);
  const auto type = [](const std::string& word) {
    return gauge("path = 'p'\nspeaks = 'modbus'\ntype = '" + word + "'").map.type;
  };
  EXPECT_EQ(type("int16"), RegisterType::int16);
  EXPECT_EQ(type("int32"), RegisterType::int32);
  EXPECT_EQ(type("uint32"), RegisterType::uint32);
}

TEST(ParseScenario, ReadsStreamsAndSeed) {
  const auto scenario = parse_scenario(
      "title='t'\nseed=9\n[[gauge]]\nname='g'\npath='p'\nspeaks='bin24'\nstream_hz=50\nstreams=true\nzero='83'\n",
      "t.toml");
  EXPECT_EQ(scenario->seed, 9);
  EXPECT_EQ(scenario->gauges[0].stream_hz, 50);
  EXPECT_TRUE(scenario->gauges[0].streams);
  EXPECT_EQ(scenario->gauges[0].held, Amount{83'000'000}) << "on its zero where nothing else is said";
}

TEST(ParseScenario, ReadsPorts) {
  const auto told = gauge("tcp = '127.0.0.1:4001'\nspeaks = 'line'");
  EXPECT_EQ(told.tcp->port, 4001);
  EXPECT_EQ(told.path, "");
  EXPECT_EQ(gauge("tcp = '127.0.0.1:0'\npath = 'p'\nspeaks = 'line'").path, "p");
  const auto box = parse_scenario(
      "title='t'\n[[gauge]]\nname='a'\ntcp='127.0.0.1:4001'\nspeaks='line'\n"
      "[[gauge]]\nname='b'\nport_of='a'\nspeaks='line'\n",
      "t.toml");
  EXPECT_EQ(box->gauges[1].port_of, "a");
  EXPECT_EQ(box->gauges[1].tcp->port, 4001) << "what can go wrong there can go wrong here";
  EXPECT_TRUE(
      parse_scenario("title='t'\n[[gauge]]\nname='a'\ntcp='127.0.0.1:4001'\nspeaks='line'\n"
                     "[[gauge]]\nname='b'\ntcp='127.0.0.1:4002'\nspeaks='line'\n",
                     "t.toml"))
      << "neither has a path";
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
#define HEAD "title = 't'\n[[gauge]]\nname = 'g'\n"
#define GAUGE HEAD "path = 'p'\nspeaks = 'line'\n"

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
        Wrong{GAUGE "lead = 'x'", "s.toml:6:8: 'x' is unknown: lead is  , 0"},
        Wrong{GAUGE "width = 41", "s.toml:6:9: width is a whole number from 0 to 40"},
        Wrong{GAUGE "stream_hz = 0", "s.toml:6:13: stream_hz is a whole number from 1 to 1000"},
        Wrong{GAUGE "held = '9999999'", "s.toml:6:8: '9999999' is no value"},
        Wrong{GAUGE "ask = 'R'", "s.toml:6:1: unknown key 'ask': known here are channel"},
        Wrong{GAUGE "tcp = 'bench:1'", "s.toml:6:7: 'bench:1' is no address: write one such as 127.0.0.1:4001"},
        Wrong{HEAD "tcp = '127.0.0.1:0'\nspeaks = 'line'", "s.toml:2:1: 'path' is missing: write path = "},
        Wrong{HEAD "speaks = 'line'", "s.toml:2:1: 'path' is missing: write path = "},
        Wrong{HEAD "path = 'p'\nspeaks = 'query'", "s.toml:2:1: 'ask' is missing: write ask = \"R\\r\""},
        Wrong{HEAD "path = 'p'\nspeaks = 'query'\nask = 'R'\nstreams = true",
              "s.toml:7:1: unknown key 'streams': known here are ask, decimals, delay_ms, end, held, name, number"},
        Wrong{HEAD "path = 'p'\nspeaks = 'bcd13'\nchannel = 'A'", "s.toml:6:1: unknown key 'channel'"},
        Wrong{HEAD "path = 'p'\nspeaks = 'bin24'\ndecimals = 2", "s.toml:6:1: unknown key 'decimals'"},
        Wrong{HEAD "path = 'p'\nspeaks = 'modbus'\nvalues = ['1']",
              "s.toml:6:1: unknown key 'values': known here are "
              "address, decimals, delay_ms, held, name, offset, order, path, port_of, speaks, table, tcp, type, unit, "
              "unit_id, zero"},
        Wrong{HEAD "path = 'p'\nspeaks = 'modbus'\ntype = 'int16'\nheld = '33'",
              "s.toml:7:8: the value is too large for its registers"},
        Wrong{HEAD "path = 'p'\nspeaks = 'modbus'\norder = 'abcd'",
              "s.toml:6:9: 'abcd' is unknown: order is ABCD, CDAB"},
        Wrong{GAUGE "[[gauge]]\nname = 'h'\nport_of = 'x'\nspeaks = 'line'", "s.toml:8:11: 'x' stands not above"},
        Wrong{GAUGE "[[gauge]]\nname = 'h'\nport_of = 'h'\nspeaks = 'line'", "s.toml:8:11: 'h' stands not above"},
        Wrong{GAUGE "[[gauge]]\nname = 'h'\nport_of = 'g'\nspeaks = 'line'\n"
                    "[[gauge]]\nname = 'i'\nport_of = 'h'\nspeaks = 'line'",
              "s.toml:12:11: 'h' stands not above with a port of its own"},
        Wrong{GAUGE "[[gauge]]\nname = 'h'\nport_of = 'g'\nspeaks = 'bcd13'", "s.toml:8:11: 'g' speaks otherwise"},
        Wrong{GAUGE "[[gauge]]\nname = 'h'\nport_of = 'g'\nspeaks = 'line'\npath = 'q'",
              "s.toml:8:11: a shared port is opened once: leave path and tcp out"},
        Wrong{HEAD "tcp = '127.0.0.1:9'\nspeaks = 'line'\n[[gauge]]\nname = 'h'\ntcp = '127.0.0.1:9'\nspeaks = 'line'",
              "s.toml:8:7: '127.0.0.1:9' stands twice: each gauge has its port"},
        Wrong{"play = ['spoil g crc']\n" GAUGE, "s.toml:1:9: g: only a modbus answer can have that"},
        Wrong{"play = ['delay g 5']\n" GAUGE, "s.toml:1:9: g: only what is asked can be late: query or modbus"},
        Wrong{"play = ['press g 1 status L']\n" HEAD "path = 'p'\nspeaks = 'bcd13'",
              "s.toml:1:9: g: only a line has a status: leave it out"},
        Wrong{"play = ['stream g start']\n" HEAD "path = 'p'\nspeaks = 'modbus'",
              "s.toml:1:9: g: it speaks only when it is asked: a stream wants line, bcd13 or bin24"},
        Wrong{"play = ['stream g start']\n" HEAD "path = 'p'\nspeaks = 'query'\nask = 'R'",
              "s.toml:1:9: g: it speaks only when it is asked"},
        Wrong{"play = ['flood g 9 1 frames']\n" HEAD "path = 'p'\nspeaks = 'modbus'",
              "s.toml:1:9: g: a modbus gauge sends no frames by itself"},
        Wrong{"play = ['rock g']\n" GAUGE, "s.toml:1:9: it breaks off: write rock GAUGE VALUE"},
        Wrong{"seed = -1\n" GAUGE, "s.toml:1:8: seed is a whole number from 0 to 1000000000"},
        Wrong{"stay = 1\n" GAUGE, "s.toml:1:8: stay is true or false"},
        Wrong{"speed = 2\n" GAUGE, "s.toml:1:1: unknown key 'speed': known here are gauge, play, seed, stay, title"}));

/// Two gauges on one port; what is wrong with the second, or nothing.
std::string shared(const std::string& first, const std::string& second) {
  const auto read = parse_scenario(
      "title='t'\n[[gauge]]\nname='a'\npath='p'\n" + first + "\n[[gauge]]\nname='b'\nport_of='a'\n" + second, "s.toml");
  return read ? "" : read.error().substr(read.error().find(": ") + 2);
}

TEST(ParseScenario, NoTwoOnOnePortAnswerTheSame) {
  const auto twice = "'a' answers the same there: each has its ask, or its registers";
  const std::string query = "speaks='query'\nask='R'", modbus = "speaks='modbus'\naddress=4";
  EXPECT_EQ(shared(query, query), twice);
  EXPECT_EQ(shared(query, "speaks='query'\nask='S'"), "");
  EXPECT_EQ(shared(modbus, modbus), twice);
  EXPECT_EQ(shared(modbus, "speaks='modbus'\naddress=5"), twice) << "a float has two registers";
  EXPECT_EQ(shared(modbus, "speaks='modbus'\naddress=6"), "");
  EXPECT_EQ(shared(modbus, "speaks='modbus'\naddress=3\ntype='int16'"), "");
  EXPECT_EQ(shared(modbus, "speaks='modbus'\naddress=3"), twice);
  EXPECT_EQ(shared(modbus, modbus + "\ntable='holding'"), "");
  EXPECT_EQ(shared(modbus, modbus + "\nunit_id=2"), "");
  EXPECT_EQ(shared("speaks='line'", "speaks='line'"), "") << "lines are not asked";
}

TEST(ParseScenario, Bcd13HasFiveDecimalsAtMost) {
  const auto read = parse_scenario("title='t'\n[[gauge]]\nname='g'\npath='p'\nspeaks='bcd13'\ndecimals = 6", "s.toml");
  EXPECT_EQ(read.error(), "s.toml:6:12: decimals is a whole number from 0 to 5");
}

}  // namespace
}  // namespace tenth::simulators
