#include "schema/json/escape.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "schema/json/utf8.hpp"

namespace tenth {
namespace {

TEST(EscapeBytes, ShowsEveryByteOfAFrame) {
  EXPECT_EQ(escape_bytes("+0.0012 mm"), "+0.0012 mm");
  EXPECT_EQ(escape_bytes(std::string_view("\0\x1F ~\x7F\x80\xFF", 7)), "\\x00\\x1F ~\\x7F\\x80\\xFF");
  EXPECT_EQ(escape_bytes("a\\b"), "a\\x5Cb");
  EXPECT_EQ(escape_bytes(""), "");
}

/// What `escape_bytes` wrote, read by another way.
std::string unescaped(const std::string& text) {
  std::string bytes;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\') {
      bytes += text[i];
    } else {
      bytes += static_cast<char>(std::stoi(text.substr(i + 2, 2), nullptr, 16));
      i += 3;
    }
  }
  return bytes;
}

RC_GTEST_PROP(EscapeBytes, LosesNothing, (const std::string& bytes)) {
  const std::string text = escape_bytes(bytes);
  for (const char c : text) RC_ASSERT(c >= 0x20 && c <= 0x7E);
  RC_ASSERT(unescaped(text) == bytes);
}

TEST(Printable, KeepsWordsAndShowsControls) {
  EXPECT_EQ(printable("caf\xC3\xA9 \xE2\x82\xAC \\ \xF0\x9F\x98\x80"), "caf\xC3\xA9 \xE2\x82\xAC \\ \xF0\x9F\x98\x80");
  EXPECT_EQ(printable("\x1b[2J\r\n\x7F"), "\\x1B[2J\\x0D\\x0A\\x7F");
  EXPECT_EQ(printable("\xC2\x80\xC2\x9B\xC2\x9F\xC2\xA0"), "\\x80\\x9B\\x9F\xC2\xA0") << "U+009B begins a sequence";
  EXPECT_EQ(printable("\xE2\x80\xAE"
                      "210.38\xE2\x81\xA6\xE2\x80\x94"),
            "\\xE2\\x80\\xAE"
            "210.38\\xE2\\x81\\xA6\xE2\x80\x94")
      << "U+202E turns what follows round";
  EXPECT_EQ(printable("a\x9B\xFFz"), "a\\x9B\\xFFz") << "stray bytes";
  EXPECT_EQ(printable(std::string_view("\0", 1)), "\\x00");
}

TEST(ValidUtf8, ReplacesEachStrayByte) {
  EXPECT_EQ(valid_utf8("caf\xC3\xA9"), "caf\xC3\xA9");
  EXPECT_EQ(valid_utf8("a\xFFz"), "a\xEF\xBF\xBDz");
  EXPECT_EQ(valid_utf8("\xED\xA0\x80"), "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");
}

RC_GTEST_PROP(ValidUtf8, IsValidAndTheSameAgain, (const std::string& bytes)) {
  const std::string text = valid_utf8(bytes);
  RC_ASSERT(valid_utf8(text) == text);
  std::string_view rest = text;
  while (!rest.empty()) {
    const std::size_t length = utf8_character(rest);
    RC_ASSERT(length > 0u);
    rest.remove_prefix(length);
  }
}

// The Unicode standard, table 3-7: first and last of each row, and the neighbours outside it.
TEST(Utf8, KnowsTheEdgesOfTheTable) {
  for (const char* good :
       {"\x7F", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xE0\xBF\xBF", "\xE1\x80\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
        "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF3\xBF\xBF\xBF", "\xF4\x8F\xBF\xBF"}) {
    EXPECT_EQ(utf8_character(good), std::string_view(good).size()) << escape_bytes(good);
  }
  for (const char* bad : {"", "\x80", "\xBF", "\xC0\x80", "\xC1\xBF", "\xC2", "\xC2\x7F", "\xC2\xC0", "\xE0\x9F\xBF",
                          "\xE1\x80", "\xE1\x80\x7F", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF", "\xF1\x80\x80",
                          "\xF1\x80\x80\xC0", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xFF"}) {
    EXPECT_EQ(utf8_character(bad), 0u) << escape_bytes(bad);
  }
}

}  // namespace
}  // namespace tenth
