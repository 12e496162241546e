#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "schema/json/escape.hpp"
#include "schema/json/json.hpp"

namespace tenth {
namespace {

std::string why(std::string_view text, std::size_t most_bytes = 1 << 20) {
  const auto value = parse_json(text, most_bytes);
  if (value) return "taken as " + canonical(*value);
  EXPECT_EQ(value.error().code, "json");
  EXPECT_EQ(value.error().exit, Exit::refused);
  return value.error().message;
}

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

std::string nested(std::size_t depth) {
  return std::string(depth, '[') + std::string(depth, ']');
}

TEST(ParseJson, TakesEveryKindOfValue) {
  const auto value = parse_json(R"( {"a":[1,-2,3.5,18446744073709551615,true,null,{"b":"c"},[]],"d":{}} )", 1 << 20);
  ASSERT_TRUE(value);
  EXPECT_EQ(value->at("a").at(1), -2);
  EXPECT_EQ(value->at("a").at(6).at("b"), "c");
  EXPECT_TRUE(value->at("d").is_object());
  EXPECT_EQ(*parse_json("7", 1), 7);
}

TEST(ParseJson, SaysWhereTheErrorIs) {
  EXPECT_TRUE(has(why("{\"a\":\n 1,}"), "line 2, column 4")) << why("{\"a\":\n 1,}");
  EXPECT_TRUE(has(why(""), "line 1, column 1")) << why("");
  for (const char* text : {"{", "[1,]", "nul", "01", "1.", "+1", "'a'", "{a:1}", "1 2", "\"\t\"", "NaN", "// no\n1"}) {
    EXPECT_TRUE(has(why(text), "parse error at line")) << why(text);
  }
}

TEST(ParseJson, RefusesTooManyBytes) {
  EXPECT_EQ(why("[1,2]", 5), "taken as [1,2]");
  EXPECT_TRUE(has(why("[1,2]", 4), "more than 4"));
}

TEST(ParseJson, RefusesWhatIsNestedDeeperThan32) {
  EXPECT_EQ(why(nested(32)), "taken as " + nested(32));
  EXPECT_TRUE(has(why(nested(33)), "deeper than 32"));
  EXPECT_TRUE(has(why(std::string(1 << 20, '[')), "deeper than 32"));
  std::string objects;
  for (int i = 0; i < 33; ++i) objects += R"({"a":)";
  EXPECT_TRUE(has(why(objects), "deeper than 32"));
}

TEST(ParseJson, RefusesANameThatStandsTwice) {
  EXPECT_TRUE(has(why(R"({"size":1,"size":2})"), "'size' stands twice"));
  EXPECT_TRUE(has(why(R"([{"x":{"a":1,"b":2,"\u0061":3}}])"), "'a' stands twice")) << "names are compared as read";
  EXPECT_EQ(why(R"({"a":{"a":1},"b":{"a":1}})"), R"(taken as {"a":{"a":1},"b":{"a":1}})");
}

TEST(ParseJson, RefusesWhatIsNotUtf8) {
  for (const char* text : {"\"\xFF\"", "\"\xC0\x80\"", "\"\xED\xA0\x80\"", "\"\xF4\x90\x80\x80\"", "\"\xE2\x82\""}) {
    EXPECT_FALSE(parse_json(text, 100));
    EXPECT_EQ(valid_utf8(why(text)), why(text)) << "the refusal itself is UTF-8";
  }
}

TEST(ParseJson, RefusesLoneSurrogates) {
  EXPECT_FALSE(parse_json(R"("\ud83d")", 100));
  EXPECT_FALSE(parse_json(R"("\ude00\ud83d")", 100));
  EXPECT_FALSE(parse_json(R"({"\udead":1})", 100));
  EXPECT_EQ(why(R"("\ud83d\ude00")"), "taken as \"\xF0\x9F\x98\x80\"");
}

TEST(ParseJson, RefusesNumbersPastBinary64) {
  EXPECT_TRUE(has(why("1e999"), "1e999"));
}

TEST(ParseJson, RefusesAZeroByteAndWhatItWouldHide) {
  EXPECT_TRUE(has(why(std::string_view("{}\0{", 4)), "zero byte"));
  EXPECT_TRUE(has(why(std::string_view("\0", 1)), "zero byte"));
}

TEST(ParseJson, KeepsItsRefusalsShortAndPrintable) {
  const std::string name = std::string(5'000, 'n') + "\x1b[31m";
  EXPECT_LT(why("{\"" + name + "\"").size(), 400u);
  EXPECT_LT(why("{\"" + std::string(5'000, 'n') + "\":1,\"" + std::string(5'000, 'n') + "\":1}").size(), 400u);
  EXPECT_FALSE(has(why("\"a\x1b[31m\""), "\x1b"));
}

RC_GTEST_PROP(ParseJson, NeverThrowsWhateverTheBytes, (const std::string& bytes)) {
  const auto value = parse_json(bytes, 1 << 20);
  if (value) RC_ASSERT(*parse_json(canonical(*value), 1 << 20) == *value);
}

RC_GTEST_PROP(ParseJson, NeverThrowsWhateverIsDoneToGoodText, ()) {
  std::string text = R"({"a":[1,-2.5e3,true,null,"\ud83d\ude00\n"],"b":{"c":"\u00e9 \\ é"}})";
  const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
  text[at] = *rc::gen::arbitrary<char>();
  const auto value = parse_json(text.substr(0, *rc::gen::inRange<std::size_t>(0, text.size() + 1)), 1 << 20);
  if (value) RC_ASSERT(*parse_json(canonical(*value), 1 << 20) == *value);
}

}  // namespace
}  // namespace tenth
