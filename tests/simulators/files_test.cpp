#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <sstream>

#include "simulators/options.hpp"
#include "simulators/scenario.hpp"
#include "simulators/verbs.hpp"

namespace tenth::simulators {
namespace {

std::string text_of(const std::string& file) {
  std::ifstream stream(std::string(TENTH_SOURCE_DIR) + "/simulators/" + file);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

TEST(Readme, ItsSampleIsAScenario) {
  const auto readme = text_of("README.md");
  const auto begin = readme.find("```toml\n") + 8;
  const auto scenario = parse_scenario(readme.substr(begin, readme.find("```", begin) - begin), "README.md");
  ASSERT_TRUE(scenario) << scenario.error();
  EXPECT_EQ(scenario->gauges.size(), 5U);
  EXPECT_EQ(scenario->gauges[0].zero, Amount{83'000'000});
  EXPECT_EQ(scenario->play.size(), 8U);
}

TEST(Readme, NamesEveryKeyThatAScenarioKnows) {
  const auto readme = text_of("README.md");
  for (const std::string format : {"line", "bcd13", "bin24", "query", "modbus"}) {
    const auto gauge = "title='t'\n[[gauge]]\nname='g'\npath='p'\nask='R'\nx=1\nspeaks='" + format + "'";
    const auto unknown = parse_scenario(gauge, "s.toml").error();
    std::istringstream known(unknown.substr(unknown.find("known here are ") + 15));
    for (std::string key; std::getline(known >> std::ws, key, ',');) {
      EXPECT_NE(readme.find("\n" + key + " = "), std::string::npos) << key;
    }
  }
}

TEST(Readme, NamesEveryAct) {
  const auto readme = text_of("README.md");
  for (const auto& verb : verbs()) EXPECT_NE(readme.find("`" + std::string(verb.name) + " "), std::string::npos);
}

TEST(Help, NamesEveryAct) {
  for (const auto& verb : verbs()) {
    if (verb.name == "wait") continue;  // stands in a play only
    EXPECT_NE(help().find(std::string(verb.name) + " GAUGE"), std::string::npos) << verb.name;
  }
}

TEST(BenchFile, HasAGaugeOfEveryFormat) {
  const auto scenario = parse_scenario(text_of("bench-of-all.toml"), "bench-of-all.toml");
  ASSERT_TRUE(scenario) << scenario.error();
  std::set<Speaks> spoken;
  for (const auto& gauge : scenario->gauges) spoken.insert(gauge.display.speaks);
  EXPECT_EQ(spoken.size(), 5U);
}

TEST(Demo, ItsGaugesCanShowAllThatTheyMeasure) {
  const auto scenario = parse_scenario(text_of("demo-engine/bench.toml"), "bench.toml");
  ASSERT_TRUE(scenario) << scenario.error();
  EXPECT_EQ(scenario->gauges.size(), 7U);
  std::size_t presses = 0;
  for (const auto& gauge : scenario->gauges) presses += gauge.values.size();
  EXPECT_EQ(presses, 213U) << "197 readings, one of them a slip, and 16 on masters";
}

// A press a turn of the thimble out (0.025 in) is followed by the right one.
TEST(Demo, HasItsSlip) {
  const auto scenario = parse_scenario(text_of("demo-engine/bench.toml"), "bench.toml").value();
  const auto& values = find_gauge(scenario.gauges, "micrometer-3")->values;
  EXPECT_EQ(values.at(8) - values.at(9), Amount{25'000});
}

}  // namespace
}  // namespace tenth::simulators
