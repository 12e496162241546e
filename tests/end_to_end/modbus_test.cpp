// Modbus registers over a serial line and over TCP.
#include <array>
#include <cmath>

#include "tests/end_to_end/answering.hpp"
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/modbus_frames.hpp"
#include "tests/end_to_end/profile_text.hpp"
#include "tests/end_to_end/tcp_gauge.hpp"

namespace acceptance {
namespace {

class Modbus : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    done({"at", "bore"});
  }
  void TearDown() override { far_end_.reset(); }
  std::filesystem::path profile(const std::string& modbus, const std::string& value = "") {
    return write("m.toml", "format = \"tenth-profile-1\"\nspeaks = \"modbus\"\n[value]\nunit = \"mm\"\n" + value +
                               "\n[trigger]\nby = \"poll\"\nevery_ms = 60\nwithin_ms = 100\n[modbus]\n" + modbus +
                               "\n");
  }
  // A gauge of its own each time, so that nothing of the one before is taken for it.
  void serial(const std::string& modbus, const std::string& answer, const std::string& value = "") {
    far_end_.reset();
    name_ = "g" + std::to_string(cables_.size());
    PtyGauge& cable = gauge(name_, {}, profile(modbus, value));
    far_end_ = std::make_unique<Answering>(cable.far_end(), of_length(8), answer);
  }
  json told(const std::string& event, const std::string& key = "", const std::string& value = "") {
    return watch_->next(event,
                        [&](const json& one) { return one["gauge"] == name_ && (key.empty() || one[key] == value); });
  }
  // Registers in this order and type give this text and value.
  void reads(const std::string& modbus, const std::string& registers, const std::string& text, double value_mm,
             const std::string& value = "") {
    serial(modbus, rtu_answer(1, 4, registers), value);
    const json live = told("live");
    EXPECT_EQ(live["text"], text) << modbus;
    EXPECT_EQ(live["value_mm"], value_mm) << modbus;
  }
  json fault(const std::string& why) { return told("fault", "why", why); }
  std::string name_ = "g";
  std::unique_ptr<Answering> far_end_;
};

const std::string seventy = float_bytes(70.01F);  // 42 8C 05 1F

std::string swapped(const std::string& bytes, std::array<std::size_t, 4> order) {
  std::string text;
  for (const std::size_t k : order) text += bytes[k];
  return text;
}

TEST_F(Modbus, AsksForItsRegistersAndNothingElse) {
  serial("unit_id = 17\ntable = \"holding\"\naddress = 300\ntype = \"int32\"", rtu_answer(17, 3, big_endian(7001, 4)),
         "scale = \"0.01\"");
  EXPECT_EQ(told("live")["value_mm"], 70.01);
  const std::string request = with_crc(std::string("\x11\x03\x01\x2C\x00\x02", 6));
  for (const std::string& asked : far_end_->asked()) EXPECT_EQ(asked, request);
  serial("type = \"uint16\"", rtu_answer(1, 4, big_endian(70, 2)));
  EXPECT_EQ(told("live")["text"], "70");
  EXPECT_EQ(far_end_->asked().at(0), with_crc(std::string("\x01\x04\x00\x00\x00\x01", 6)));
}

TEST_F(Modbus, FloatsInEveryOrder) {
  reads("", seventy, "70.0100", 70.01);
  reads("order = \"CDAB\"", swapped(seventy, {2, 3, 0, 1}), "70.0100", 70.01);
  reads("order = \"BADC\"", swapped(seventy, {1, 0, 3, 2}), "70.0100", 70.01);
  reads("order = \"DCBA\"", swapped(seventy, {3, 2, 1, 0}), "70.0100", 70.01);
}

TEST_F(Modbus, IntegersInEveryOrder) {
  const std::string minus = big_endian(0xFFFFFFFFU - 1233U, 2);  // -1234 in 16 bits
  const std::string scale = "scale = \"0.001\"";
  for (const char* order : {"ABCD", "CDAB"}) {
    reads(std::string("type = \"int16\"\norder = \"") + order + "\"", minus, "-1234", -1.234, scale);
  }
  for (const char* order : {"BADC", "DCBA"}) {
    reads(std::string("type = \"int16\"\norder = \"") + order + "\"", {minus[1], minus[0]}, "-1234", -1.234, scale);
  }
  reads("type = \"uint16\"", big_endian(65000, 2), "65000", 65.0, scale);
  reads("type = \"uint32\"\norder = \"CDAB\"", swapped(big_endian(700100, 4), {2, 3, 0, 1}), "700100", 70.01,
        "scale = \"0.0001\"");
}

// 0.0625 and 2.25 lie half way and are exact in binary.
TEST_F(Modbus, AFloatIsRoundedHalfAwayFromZeroAndThenScaled) {
  reads("decimals = 3", float_bytes(0.0625F), "0.063", 0.063);
  reads("decimals = 3", float_bytes(-0.0625F), "-0.063", -0.063);
  reads("decimals = 1", float_bytes(2.25F), "2.3", 0.0023, "scale = \"0.001\"");
  reads("decimals = 0", float_bytes(2.5F), "3", -3.0, "negate = true");
}

TEST_F(Modbus, RawIsTheWholeAnswer) {
  serial("", rtu_answer(1, 4, seventy));
  told("live");
  done({"take", "--gauge", name_});
  const json reading = watch_->next("reading");
  EXPECT_EQ(reading["raw"], R"(\x01\x04\x04B\x8C\x05\x1Fl\x8F)");
  EXPECT_EQ(reading["text"], "70.0100");
  EXPECT_EQ(reading["state"], "kept");
}

TEST_F(Modbus, WrongAnswersAreFaultsAndNeverValues) {
  const std::string good = rtu_answer(1, 4, seventy);
  std::string torn = good;
  torn.back() = static_cast<char>(torn.back() ^ 1);
  for (const std::string& wrong : {torn, with_crc("\x01\x84\x02"), rtu_answer(2, 4, seventy), rtu_answer(1, 3, seventy),
                                   rtu_answer(1, 4, seventy.substr(0, 2)), rtu_answer(1, 4, float_bytes(NAN)),
                                   rtu_answer(1, 4, float_bytes(INFINITY))}) {
    serial("", wrong);
    fault("bad_frame");
    refused({"take", "--gauge", name_}, 4);
    EXPECT_FALSE(watch_->heard("live"));
  }
}

TEST_F(Modbus, NoAnswerIsSilent) {
  serial("", "");
  EXPECT_EQ(fault("silent")["bytes"], 0);
}

TEST_F(Modbus, OverTcpWithTheTransactionOfTheQuestion) {
  TcpGauge server;
  done({"gauge", "add", "g", "--port", server.name(), "--profile", profile("unit_id = 9\naddress = 7")});
  Answering far_end(server.accepted(), of_length(12),
                    [](const std::string& request) { return tcp_answer(request, seventy); });
  EXPECT_EQ(watch_->next("live")["value_mm"], 70.01);
  const std::string first = far_end.asked().at(0);
  EXPECT_EQ(first.substr(2), std::string("\x00\x00\x00\x06\x09\x04\x00\x07\x00\x02", 10));
  far_end.answer([](std::string request) {
    request[1] = static_cast<char>(request[1] + 7);
    return tcp_answer(request, seventy);
  });
  fault("bad_frame");
  far_end.answer(
      [](const std::string& request) { return request.substr(0, 4) + std::string("\x00\x03\x09\x84\x02", 5); });
  fault("bad_frame");
  watch_->forget();
  far_end.answer("");
  fault("silent");
  far_end.answer([](const std::string& request) { return tcp_answer(request, float_bytes(70.02F)); });
  watch_->next("live", [](const json& event) { return event["text"] == "70.0200"; });
}

}  // namespace
}  // namespace acceptance
