#include "simulators/options.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace tenth::simulators {
namespace {

using Words = std::vector<std::string_view>;

Result<Options> parsed(const Words& words) {
  return parse_options(words);
}

TEST(Options, ScenarioAlone) {
  const auto options = parsed({"shop/six.toml"}).value();
  EXPECT_EQ(options.scenario, "shop/six.toml");
  EXPECT_EQ(options.folder, "shop");
  EXPECT_FALSE(options.control || options.help || options.version);
}

TEST(Options, DirAndControlInAnyOrder) {
  const auto options = parsed({"--control", "-", "six.toml", "--dir", "/tmp/ports"}).value();
  EXPECT_EQ(options.folder, "/tmp/ports");
  EXPECT_EQ(options.control, "-");
  EXPECT_EQ(options.scenario, "six.toml");
}

TEST(Options, HelpAndVersionWantNoScenario) {
  EXPECT_TRUE(parsed({"--help"}).value().help);
  EXPECT_TRUE(parsed({"-h"}).value().help);
  EXPECT_TRUE(parsed({"--version"}).value().version);
}

TEST(Options, SayWhatIsWrong) {
  EXPECT_EQ(parsed({}).error(), "no scenario: name its file, as in tenth-sim SCENARIO.toml");
  EXPECT_EQ(parsed({"a", "b"}).error(), "'b' is one scenario too many: name one");
  EXPECT_EQ(parsed({"a", "--dir"}).error(), "--dir wants a path after it");
  EXPECT_EQ(parsed({"a", "--control"}).error(), "--control wants a path after it");
  EXPECT_EQ(parsed({"--fast", "a"}).error(), "unknown option '--fast': known are --dir, --control, --help, --version");
}

TEST(Help, NamesEveryActAndGivesExamples) {
  for (const auto* word : {"press GAUGE", "raw GAUGE", "drift GAUGE", "hangup GAUGE", "return GAUGE", "go ", "quit",
                           "Examples:", "Exit status:"}) {
    EXPECT_NE(help().find(word), std::string_view::npos) << word;
  }
}

}  // namespace
}  // namespace tenth::simulators
