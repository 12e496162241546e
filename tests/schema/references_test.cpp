#include "schema/ledger/references.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <regex>
#include <sstream>

namespace tenth {
namespace {

/// The words in backticks from one phrase of the ledger's page to another.
std::vector<std::string> words_between(const std::string& begin, const std::string& end) {
  std::ifstream file(TENTH_SOURCE_DIR "/schema/ledger.md");
  std::stringstream text;
  text << file.rdbuf();
  const std::string page = text.str();
  const auto from = page.find(begin), to = page.find(end, from);
  if (from == std::string::npos || to == std::string::npos) return {};
  const std::string list = page.substr(from, to - from);
  static const std::regex quoted("`([^`]+)`");
  std::vector<std::string> words;
  for (std::sregex_iterator word(list.begin(), list.end(), quoted), none; word != none; ++word)
    words.push_back((*word)[1]);
  return words;
}

TEST(References, AreThoseThatTheLedgersPageLists) {
  const auto keys = reference_keys();
  EXPECT_EQ(words_between("rests on is named by seq under", "in the array"),
            std::vector<std::string>(keys.begin(), keys.end()));
  EXPECT_EQ(words_between("in the array", ".\n"), (std::vector<std::string>{"seqs", "seq", "moves"}));
}

TEST(References, AreFoundUnderEachKeyAndInSeqsAndMoves) {
  Json body = {
      {"kind", "move"}, {"step_us", 900}, {"seqs", {901, 902}}, {"moves", {{{"seq", 903}, {"stage_entry", 8}}}}};
  std::vector<std::int64_t> expected;
  for (const char* key : reference_keys()) {
    expected.push_back(static_cast<std::int64_t>(expected.size()) + 1);
    body[key] = expected.back();
  }
  expected.insert(expected.end(), {901, 902, 903});
  EXPECT_EQ(references(body), expected);
}

}  // namespace
}  // namespace tenth
