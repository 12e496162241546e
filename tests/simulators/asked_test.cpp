#include "simulators/asked.hpp"

#include "playing.hpp"
#include "simulators/encode/crc16.hpp"

namespace tenth::simulators {
namespace {

using namespace std::chrono_literals;
using namespace std::string_literals;

constexpr auto kProbes = R"([[gauge]]
name = "probe"
path = "probe"
speaks = "query"
ask = "RA\r"
held = "12.345"
[[gauge]]
name = "other"
port_of = "probe"
speaks = "query"
ask = "RB\r"
number = "nr1"
held = "-0.5"
delay_ms = 30
)";

class Query : public testing::Test {
 protected:
  Played bench_{kProbes};
  Reader port_{bench_.path("probe")};
};

TEST_F(Query, AnswersItsQuestionAndNoOther) {
  bench_.ask(port_, "RA\r");
  EXPECT_EQ(port_.read(7), "12.345\r");
  bench_.ask(port_, "RX\rR\r");
  EXPECT_TRUE(port_.silent());
  bench_.ask(port_, "xxRA\rRA\r");
  EXPECT_EQ(port_.read(14), "12.345\r12.345\r");
}

TEST_F(Query, TakesAQuestionThatComesInPieces) {
  bench_.ask(port_, "R");
  EXPECT_TRUE(port_.silent());
  bench_.ask(port_, "A\r");
  EXPECT_EQ(port_.read(7), "12.345\r");
}

TEST_F(Query, AnswersWhenItsDelayIsOver) {
  bench_.ask(port_, "RB\r");
  bench_.pass(29ms);
  EXPECT_TRUE(port_.silent());
  bench_.pass(1ms);
  EXPECT_EQ(port_.read(5), "-500\r");
  EXPECT_EQ(bench_.done("delay other 2000"), "");
  bench_.ask(port_, "RB\r");
  bench_.pass(1999ms);
  EXPECT_TRUE(port_.silent());
  bench_.pass(1ms);
  EXPECT_EQ(port_.read(5), "-500\r");
}

TEST_F(Query, ShowsWhatIsHeldInItsUnitWithItsDrift) {
  bench_.done("hold probe 25.4");
  bench_.done("drift probe 0.1");
  bench_.ask(port_, "RA\r");
  EXPECT_EQ(port_.read(7), "25.500\r");
  bench_.done("switch probe in");
  bench_.ask(port_, "RA\r");
  EXPECT_EQ(port_.read(7), "1.0039\r") << "25.5 / 25.4 = 1.003937";
}

TEST_F(Query, MutedItIsOpenAndSilent) {
  EXPECT_EQ(bench_.done("mute probe"), "");
  bench_.ask(port_, "RA\r");
  EXPECT_EQ(bench_.done("press probe 1"), "muted");
  EXPECT_TRUE(port_.silent());
  EXPECT_FALSE(hung_up(port_.descriptor()));
  bench_.done("unmute probe");
  EXPECT_TRUE(port_.silent()) << "what was asked meanwhile is forgotten";
  bench_.ask(port_, "RA\r");
  EXPECT_EQ(port_.read(7), "12.345\r");
}

TEST_F(Query, OneAnswerIsSpoiltAsTold) {
  const auto answered = [&](const std::string& words, std::size_t count) {
    bench_.done(words);
    bench_.ask(port_, "RA\r");
    return port_.read(count);
  };
  EXPECT_EQ(answered("spoil probe half", 3), "12.");
  EXPECT_EQ(answered("spoil probe dropped", 6), "12.45\r");
  EXPECT_EQ(answered("spoil probe doubled", 8), "12.3345\r");
  EXPECT_EQ(answered("spoil probe noisy", 10),
            "\xFF\x80\x13"
            "12.345\r");
  EXPECT_EQ(answered("hold probe 1", 6), "1.000\r") << "the one after it is whole";
  EXPECT_EQ(bench_.done("spoil probe crc"), "error: probe: only a modbus answer can have that");
}

TEST_F(Query, AnswersInTheOrderOfTheQuestions) {
  bench_.done("delay other 0");
  bench_.ask(port_, "RB\rRA\rRB\r");
  EXPECT_EQ(port_.read(17), "-500\r12.345\r-500\r");
}

/// How much is kept of bytes that are no question, on a port of that format.
std::size_t kept(Speaks speaks, const std::optional<Address>& tcp) {
  Gauge gauge;
  gauge.display.speaks = speaks;
  gauge.ask = "R\r";
  Outlet outlet{.link = {}, .address = tcp, .wire = {}, .heard = std::string(100'000, 'x')};
  Gauges gauges;
  gauges.try_emplace("g", gauge, outlet, 1U);
  Agenda agenda;
  answer_questions(outlet, gauges, agenda, Time{});
  return outlet.heard.size();
}

TEST(AnswerQuestions, KeepsOnlyWhatCanBeginOne) {
  EXPECT_EQ(kept(Speaks::line, {}), 0U);
  EXPECT_EQ(kept(Speaks::query, {}), 256U);
  EXPECT_EQ(kept(Speaks::modbus, {}), 7U);
  EXPECT_EQ(kept(Speaks::modbus, Address{}), 0U);
}

TEST(QueryOverTcp, IsTheSame) {
  Played bench(
      "[[gauge]]\nname='p'\ntcp='127.0.0.1:0'\npath='p'\nspeaks='query'\nask=\"MEAS?\\n\"\nend='lf'\nheld='1'\n");
  const Reader client(connected(bench.address("p")));
  bench.hear();
  bench.ask(client, "MEAS?\n");
  EXPECT_EQ(client.read(6), "1.000\n");
}

constexpr auto kBus = R"([[gauge]]
name = "height"
path = "bus"
speaks = "modbus"
held = "12.5"
[[gauge]]
name = "runout"
port_of = "height"
speaks = "modbus"
table = "holding"
address = 16
type = "int16"
held = "-0.012"
[[gauge]]
name = "far"
port_of = "height"
speaks = "modbus"
unit_id = 2
type = "int32"
order = "CDAB"
held = "83.012"
)";

/// A frame of a serial line: its CRC comes last, low byte first.
std::string rtu(const std::string& bytes) {
  const auto crc = crc16(bytes);
  return bytes + static_cast<char>(crc & 0xFF) + static_cast<char>(crc >> 8);
}

class ModbusRtu : public testing::Test {
 protected:
  std::string answered(const std::string& question, std::size_t count) {
    bench_.ask(port_, rtu(question));
    return port_.read(count);
  }

  Played bench_{kBus};
  Reader port_{bench_.path("bus")};
};

// Values by hand: 12.5 is 0x41480000; -12 is 0xFFF4; 83012 is 0x00014444. The CRCs beside crc16_test's check value.
TEST_F(ModbusRtu, AnswersWithTheRegistersAskedFor) {
  EXPECT_EQ(answered("\x01\x04\0\0\0\x02"s, 9), rtu("\x01\x04\x04\x41\x48\0\0"s));
  EXPECT_EQ(answered("\x01\x03\0\x10\0\x01"s, 7), rtu("\x01\x03\x02\xFF\xF4"s));
  EXPECT_EQ(answered("\x02\x04\0\0\0\x02"s, 9), rtu("\x02\x04\x04\x44\x44\0\x01"s));
}

TEST_F(ModbusRtu, TellsWhatItHasNot) {
  EXPECT_EQ(answered("\x01\x06\0\0\0\x01"s, 5), rtu("\x01\x86\x01"s)) << "function";
  EXPECT_EQ(answered("\x01\x04\0\x10\0\x01"s, 5), rtu("\x01\x84\x02"s)) << "address";
  EXPECT_EQ(answered("\x01\x03\0\0\0\x02"s, 5), rtu("\x01\x83\x02"s)) << "table";
}

TEST_F(ModbusRtu, AValueTooLargeIsADeviceFailure) {
  bench_.done("hold runout 40");
  EXPECT_EQ(answered("\x01\x03\0\x10\0\x01"s, 5), rtu("\x01\x83\x04"s));
  EXPECT_EQ(answered("\x01\x04\0\0\0\x02"s, 9), rtu("\x01\x04\x04\x41\x48\0\0"s)) << "and not of its neighbour";
}

TEST_F(ModbusRtu, IsSilentToAnotherUnitAndAWrongCrc) {
  bench_.ask(port_, rtu("\x03\x04\0\0\0\x02"s));
  bench_.ask(port_, "\x01\x04\0\0\0\x02\0\0"s);
  EXPECT_TRUE(port_.silent());
}

TEST_F(ModbusRtu, OneAnswerIsSpoiltAsTold) {
  const auto question = "\x01\x04\0\0\0\x02"s;
  const auto right = rtu("\x01\x04\x04\x41\x48\0\0"s);
  bench_.done("spoil height crc");
  const auto wrong = answered(question, 9);
  EXPECT_EQ(wrong.substr(0, 7), right.substr(0, 7));
  EXPECT_NE(wrong.substr(7), right.substr(7));
  bench_.done("spoil height exception 6");
  EXPECT_EQ(answered(question, 5), rtu("\x01\x84\x06"s));
  bench_.done("spoil height half");
  EXPECT_EQ(answered(question, 4), right.substr(0, 4));
  EXPECT_EQ(answered(question, 9), right);
}

TEST_F(ModbusRtu, SpoilsTheAnswerOfTheGaugeThatIsNamed) {
  bench_.done("spoil runout exception 6");
  EXPECT_EQ(answered("\x01\x04\0\0\0\x02"s, 9), rtu("\x01\x04\x04\x41\x48\0\0"s));
  EXPECT_EQ(answered("\x01\x03\0\x10\0\x01"s, 5), rtu("\x01\x83\x06"s));
}

TEST_F(ModbusRtu, HasNoButtonAndNoTransaction) {
  EXPECT_EQ(bench_.done("press height 1"), "error: height: a modbus gauge has no button: it answers when it is asked");
  EXPECT_EQ(bench_.done("spoil height transaction"),
            "error: height: there is a transaction on TCP only: spoil the crc");
}

TEST(ModbusTcp, AnswersWithTheHeaderOfTheQuestion) {
  Played bench("[[gauge]]\nname='h'\ntcp='127.0.0.1:0'\npath='h'\nspeaks='modbus'\nheld='12.5'\ndelay_ms=10\n");
  const Reader client(connected(bench.address("h")));
  bench.hear();
  const auto question = "\x12\x34\0\0\0\x06\x01\x04\0\0\0\x02"s;
  bench.ask(client, question);
  EXPECT_TRUE(client.silent());
  bench.pass(10ms);
  EXPECT_EQ(client.read(13), "\x12\x34\0\0\0\x07\x01\x04\x04\x41\x48\0\0"s);
  bench.done("spoil h transaction");
  bench.ask(client, question);
  bench.pass(10ms);
  EXPECT_EQ(client.read(13), "\x12\x35\0\0\0\x07\x01\x04\x04\x41\x48\0\0"s);
  EXPECT_EQ(bench.done("spoil h crc"), "error: h: there is no CRC on TCP: spoil the transaction");
}

}  // namespace
}  // namespace tenth::simulators
