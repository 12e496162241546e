// tests/failures.md names the tests that hold us to what must happen: they must be there.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>
#include <string>

namespace {

namespace fs = std::filesystem;

const fs::path kTests = fs::path(TENTH_SOURCE_DIR) / "tests";

/// A test as the page names it.
const std::string kNamed = R"(`(\w+)\.([A-Z]\w+)`)";

std::string text_of(const fs::path& file) {
  std::stringstream text;
  text << std::ifstream(file).rdbuf();
  return text.str();
}

std::set<std::string> matches(const std::string& text, const std::string& pattern) {
  std::set<std::string> found;
  const std::regex form(pattern);
  for (std::sregex_iterator it(text.begin(), text.end(), form), end; it != end; ++it)
    found.insert((*it)[1].str() + "." + (*it)[2].str());
  return found;
}

std::set<std::string> all_tests() {
  std::set<std::string> all;
  for (const auto& entry : fs::recursive_directory_iterator(kTests))
    if (entry.path().extension() == ".cpp")
      all.merge(matches(text_of(entry.path()), R"(\bTEST(?:_F|_P)?\((\w+), (\w+)\))"));
  return all;
}

TEST(Failures, EachHasItsTests) {
  const std::string page = text_of(kTests / "failures.md");
  const auto all = all_tests();
  const auto named = matches(page, kNamed);
  EXPECT_GT(named.size(), 50U);
  for (const std::string& test : named) EXPECT_TRUE(test == "Suite.Name" || all.contains(test)) << test;
  std::istringstream lines(page);
  for (std::string line; std::getline(lines, line);) {
    const bool failure = line.starts_with("| ") && !line.starts_with("| what") && !line.starts_with("| ---");
    EXPECT_TRUE(!failure || !matches(line, kNamed).empty()) << line;
  }
}

}  // namespace
