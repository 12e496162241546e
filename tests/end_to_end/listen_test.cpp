// Finding a gauge and finding out what it speaks: find, listen, record.
#include <fstream>
#include <sstream>
#include <thread>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Listen : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    cables_["n"] = std::make_unique<PtyGauge>(home_ / "port-n");
  }
  Words words(const std::string& seconds) const {
    return {tenth_path(), "--json", "gauge", "listen", home_ / "port-n", "--for", seconds};
  }
  // What it says of these presses.
  json heard(const std::vector<std::string>& presses, int status = 0) {
    Child listening(words("2"));
    std::this_thread::sleep_for(Millis(400));
    for (const std::string& press : presses) {
      cable("n").send(press);
      std::this_thread::sleep_for(Millis(250));
    }
    listening.drain(in(std::chrono::seconds(10)));
    EXPECT_EQ(listening.join(in(std::chrono::seconds(2))), status) << listening.err;
    EXPECT_EQ(cable("n").heard(Millis(20)), "") << "it only listens";
    return json::parse(listening.out, nullptr, false);
  }
};

TEST_F(Listen, NamesTheProfileAndTheWordsToUse) {
  const json said = heard({bcd13("70.010"), bcd13("70.011"), bcd13("70.012")});
  const std::string add = said.value("add", "");
  EXPECT_NE(add.find("gauge add"), std::string::npos) << said;
  EXPECT_NE(add.find("--profile bcd13"), std::string::npos) << said;
  EXPECT_NE(add.find((home_ / "port-n").string()), std::string::npos) << said;
  EXPECT_EQ(asked({"status"})["gauges"], json::array()) << "it stores nothing";
}

TEST_F(Listen, TellsDecimalLinesFromDigits) {
  EXPECT_NE(heard({line("70.010"), line("70.011"), line("70.012")}).value("add", "").find("--profile line"),
            std::string::npos);
  EXPECT_NE(heard({bin24(7001), bin24(7002), bin24(7003)}).value("add", "").find("--profile bin24"), std::string::npos);
}

TEST_F(Listen, NothingFits) {
  heard({"\x80\x91\xff\x01", "\x81\x11\xf1", "\x99\x02\x03"}, 1);
}

TEST_F(Listen, NothingCame) {
  heard({}, 1);
}

TEST_F(Listen, APortInUseOrAbsentIsRefused) {
  gauge("g", {"--unit", "mm"});
  refused({"gauge", "listen", cable("g").port(), "--for", "1"}, 4);
  refused({"gauge", "listen", home_ / "nosuch", "--for", "1"}, 4);
  refused({"gauge", "listen", home_ / "port-n", "--for", "0"}, 2);
}

TEST_F(Listen, AfterwardsThePortIsFree) {
  heard({line("70.010"), line("70.011"), line("70.012")});
  EXPECT_EQ(run({"flock", "--nonblock", cable("n").device(), "true"}).status, 0);
}

TEST_F(Listen, FindListsPortsWithWhatStopsUs) {
  for (const json& port : asked({"gauge", "find"})) {
    for (const char* key : {"port", "device", "driver", "holder", "why"}) EXPECT_TRUE(port.contains(key)) << port;
  }
}

TEST_F(Listen, ARecordingHoldsWhatCrossedTheWireWithItsTimes) {
  engine(single);
  done({"at", "bore"});
  gauge("g", {"--unit", "mm"});
  const std::filesystem::path file = home_ / "wire";
  Child recording({tenth_path(), "gauge", "record", "g", file, "--for", "1"});
  std::this_thread::sleep_for(Millis(400));
  EXPECT_EQ(press("g", line("70.010"))["state"], "kept") << "the readings go on";
  cable("g").send("\x01\x80\r");
  EXPECT_EQ(recording.join(in(std::chrono::seconds(5))), 0);
  std::stringstream text;
  text << std::ifstream(file).rdbuf();
  EXPECT_NE(text.str().find("70.010\\x0D"), std::string::npos) << text.str();
  EXPECT_NE(text.str().find("\\x01\\x80\\x0D"), std::string::npos) << text.str();
  refused({"gauge", "record", "nobody", file}, 4);
  refused({"gauge", "record", "g", "/nosuch/folder/file", "--for", "1"}, 4);
}

}  // namespace
}  // namespace acceptance
