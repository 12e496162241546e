#include "cli/words.hpp"

#include <gtest/gtest.h>

#include <cstdlib>
#include <ctime>

namespace tenth::cli {
namespace {

TEST(Run, IsANumberOrTwo) {
  EXPECT_EQ(parse_run("12").value().first, 12);
  EXPECT_FALSE(parse_run("12").value().last);
  EXPECT_EQ(parse_run("12..15").value().first, 12);
  EXPECT_EQ(parse_run("12..15").value().last, 15);
  EXPECT_EQ(parse_run("7..7").value().last, 7);
}

TEST(Run, OfOtherWordsIsRefused) {
  for (const auto* text : {"", "0", "-3", "x", "3x", "3..", "..3", "3..2", "3...5", "3.5", " 3", "1..2..3",
                           "99999999999999999999", "3..99999999999999999999"}) {
    const auto run = parse_run(text);
    ASSERT_FALSE(run) << text;
    EXPECT_EQ(run.error().exit, Exit::words);
  }
}

TEST(LengthText, StaysAsTyped) {
  EXPECT_EQ(length_text({"0.0270"}, Unit::in).value(), "0.0270");
  EXPECT_EQ(length_text({"3.2677", "in"}, std::nullopt).value(), "3.2677 in");
  EXPECT_EQ(length_text({"-0.0012"}, std::nullopt).value(), "-0.0012");
  EXPECT_EQ(length_text({" -.0012"}, std::nullopt).value(), "-.0012");
  EXPECT_EQ(length_text({"5 tenth"}, Unit::mm).value(), "5 tenth");
}

TEST(LengthText, ThatIsNoLengthIsRefused) {
  for (const auto* text : {"", " ", "abc", "1.2.3", "83 ft", "0.027 0.027", "1e99", "nan", "--", "0.0000000000001"}) {
    const auto length = length_text({text}, std::nullopt);
    ASSERT_FALSE(length) << text;
    EXPECT_EQ(length.error().exit, Exit::words);
    EXPECT_FALSE(length.error().remedy.empty());
  }
}

TEST(OneOf, NamesTheNearest) {
  const auto check = one_of({"feature", "index"});
  EXPECT_EQ(check("index"), "");
  EXPECT_NE(check("indx").find("did you mean index?"), std::string::npos);
  EXPECT_NE(check("zzzzzzz").find("feature, index"), std::string::npos);
  EXPECT_NE(check("").find("feature, index"), std::string::npos);
}

TEST(NotBlank, WantsSomething) {
  EXPECT_EQ(not_blank()("dirt"), "");
  EXPECT_NE(not_blank()(""), "");
  EXPECT_NE(not_blank()("  "), "");
}

TEST(TimeText, IsOneForm) {
  EXPECT_EQ(time_text("2026-03-01T08:15:00Z").value(), "2026-03-01T08:15:00.000000Z");
  EXPECT_EQ(time_text("2026-03-01T08:15:00.5+02:00").value(), "2026-03-01T06:15:00.500000Z");
}

TEST(TimeText, OfADayIsItsLocalMidnight) {
  setenv("TZ", "UTC-2", 1);  // POSIX: two hours east of Greenwich
  tzset();
  EXPECT_EQ(time_text("2026-03-01").value(), "2026-02-28T22:00:00.000000Z");
  unsetenv("TZ");
  tzset();
}

TEST(TimeText, OfOtherWordsIsRefused) {
  for (const auto* text : {"yesterday", "08:15", "2026-13-01", "2026-03-01T", "2026-03-01 x", "12"}) {
    const auto time = time_text(text);
    ASSERT_FALSE(time) << text;
    EXPECT_EQ(time.error().exit, Exit::words);
  }
}

}  // namespace
}  // namespace tenth::cli
