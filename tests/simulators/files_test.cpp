#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "simulators/scenario.hpp"

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
  EXPECT_EQ(scenario->gauges.size(), 2U);
  EXPECT_EQ(scenario->gauges[0].zero, Amount{83'000'000});
  EXPECT_EQ(scenario->play.size(), 8U);
}

TEST(Readme, NamesEveryKeyThatAScenarioKnows) {
  const auto readme = text_of("README.md");
  const auto unknown = parse_scenario("title='t'\n[[gauge]]\nname='g'\npath='p'\nspeaks='line'\nx=1", "s.toml").error();
  std::istringstream known(unknown.substr(unknown.find("known here are ") + 15));
  for (std::string key; std::getline(known >> std::ws, key, ',');) {
    EXPECT_NE(readme.find("\n" + key + " = "), std::string::npos) << key;
  }
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
  const auto& values = find_gauge(scenario, "micrometer-3")->values;
  EXPECT_EQ(values.at(8) - values.at(9), Amount{25'000});
}

}  // namespace
}  // namespace tenth::simulators
