// One gauge of every format at once on the real daemon, played by the simulator from its own encoders: every reading
// arrives at the place of its gauge.
#include <fstream>
#include <map>

#include "tests/end_to_end/bench.hpp"

namespace acceptance {
namespace {

struct Hung {
  std::string gauge, profile;  // the profile's name, or a file's whole text
  Words options;               // of `gauge add`
  std::string press;           // the act that makes it send; empty: it shows values, and is taken
  double size_mm = 0;          // what must be read
};

const std::string kProbe = R"(format = "tenth-profile-1"
speaks = "query"
[value]
pattern = '(?P<number>[+-]?[0-9.]+(?:[eE][+-]?[0-9]+)?)'
[trigger]
by = "poll"
ask = "R\r"
every_ms = 50
)";
const std::string kProbeFar = R"(format = "tenth-profile-1"
speaks = "query"
[value]
pattern = '(?P<number>[+-]?[0-9]+)'
scale = "0.001"
[trigger]
by = "poll"
ask = "MEAS?\n"
every_ms = 50
)";
const std::string kBus =
    "format = \"tenth-profile-1\"\nspeaks = \"modbus\"\n[modbus]\nunit_id = 3\ndecimals = 3\n[trigger]\nevery_ms = "
    "50\n";
const std::string kFar =
    "format = \"tenth-profile-1\"\nspeaks = \"modbus\"\n[modbus]\norder = \"CDAB\"\n[trigger]\nevery_ms = 50\n";

// What each shows is the scenario's (simulators/bench-of-all.toml).
const std::vector<Hung> kAll = {
    {"bore-gauge", "bcd13", {"--reads", "size"}, "press bore-gauge 3.7802", 0.0002 * 25.4},
    {"depth-gauge", "bin24", {}, "press depth-gauge 0.48", 0.48},
    {"micrometer", "line-status", {"--unit", "mm"}, "press micrometer 60.003", 60.003},
    {"micrometer-nr3", "line", {"--unit", "mm"}, "press micrometer-nr3 59.998", 59.998},
    {"box-a", "line-channels", {"--unit", "mm", "--channel", "A"}, "press box-a 1.001", 1.001},
    {"box-b", "line-channels", {"--unit", "mm", "--channel", "B"}, "press box-b -2.001", -2.001},
    {"indicator", "line-stream", {"--unit", "mm"}, "", 1.5},
    {"probe", kProbe, {"--unit", "mm"}, "", 12.345},
    {"probe-far", kProbeFar, {"--unit", "mm"}, "", -0.250},
    {"bus-height", kBus, {"--unit", "mm"}, "", 101.234},
    {"height-far", kFar, {"--unit", "mm"}, "", 55.5},
};

std::string spec() {
  std::string text = "title = \"All\"\nunit = \"mm\"\n[layout]\ncylinders = 1\n";
  for (const Hung& each : kAll) text += "[feature." + each.gauge + "]\nkind = \"outside\"\nwindow = [-200, 200]\n";
  return text;
}

class AllGauges : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    simulator_ = std::make_unique<Child>(Words{TENTH_BINARY_DIR "/bin/tenth-sim",
                                               TENTH_SOURCE_DIR "/simulators/bench-of-all.toml", "--dir",
                                               home_.string(), "--control", "-"});
    ASSERT_EQ(simulator_->line(in(std::chrono::seconds(10))), "ready");
    engine(spec());
    for (const Hung& each : kAll) add(each);
  }
  void add(const Hung& each) {
    const std::string device = each.gauge == "box-b" || each.gauge == "box-a" ? "box"
                               : each.gauge == "bus-height"                   ? "bus"
                                                                              : each.gauge;
    const auto link = home_ / device;
    std::error_code none;
    const std::string target = std::filesystem::read_symlink(link, none);
    const std::string port = target.starts_with("/") ? link.string() : "tcp:" + target;
    const bool whole = each.profile.find('\n') != std::string::npos;
    Words words = {"gauge",
                   "add",
                   each.gauge,
                   "--port",
                   port,
                   "--profile",
                   whole ? write(each.gauge + ".toml", each.profile).string() : each.profile};
    words.insert(words.end(), each.options.begin(), each.options.end());
    done(words);
    wait_open(each.gauge);
    done({"at", each.gauge, "--gauge", each.gauge});
  }
  json read(const Hung& each) {
    if (each.press.empty()) return asked({"take", "--gauge", each.gauge}).at("reading");
    simulator_->feed(each.press + "\n");
    EXPECT_TRUE(simulator_->line(in(std::chrono::seconds(10))).value_or("").starts_with("ok")) << each.press;
    return watch_->next("reading", [&](const json& event) { return event.at("gauge") == each.gauge; });
  }

  std::unique_ptr<Child> simulator_;
};

TEST_F(AllGauges, EveryReadingArrivesAtItsPlace) {
  for (const Hung& each : kAll)
    if (each.press.empty()) watch_->next("live", [&](const json& event) { return event.at("gauge") == each.gauge; });
  for (const Hung& each : kAll) {
    const json reading = read(each);
    EXPECT_EQ(reading.at("gauge"), each.gauge);
    EXPECT_EQ(reading.at("feature"), each.gauge);
    EXPECT_EQ(reading.at("state"), "kept") << each.gauge << " " << reading.dump();
    EXPECT_NEAR(reading.at("size_mm").get<double>(), each.size_mm, 1e-9) << each.gauge;
  }
  EXPECT_EQ(asked({"readings"}).size(), kAll.size());
}

}  // namespace
}  // namespace acceptance
