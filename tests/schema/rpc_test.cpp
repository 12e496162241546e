#include "schema/wire/rpc.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace tenth {
namespace {

// The codes of malformed requests are JSON-RPC 2.0's own (section 5.1 of its specification).
constexpr int kNotJson = -32700;
constexpr int kNoRequest = -32600;
constexpr int kNoObject = -32602;

Malformed malformed(std::string_view line) {
  const auto parsed = parse_request(line);
  EXPECT_FALSE(parsed) << line;
  return parsed ? Malformed{} : parsed.error();
}

TEST(Request, IsReadAsItWasWritten) {
  const Json params = {{"name", "K31"}, {"size_mm", 83.0104}, {"note", "kløver \n"}};
  const auto read = parse_request(request_line(7, "engine.use", params));
  ASSERT_TRUE(read);
  EXPECT_EQ(read->id, 7);
  EXPECT_EQ(read->method, "engine.use");
  EXPECT_EQ(read->params, params);
}

TEST(Request, WithoutParametersHasAnEmptyObject) {
  for (const auto* line : {R"({"jsonrpc":"2.0","id":1,"method":"status"})",
                           R"({"jsonrpc":"2.0","id":1,"method":"status","params":null})"}) {
    const auto read = parse_request(line);
    ASSERT_TRUE(read) << line;
    EXPECT_EQ(read->params, Json::object());
  }
}

TEST(Request, IsOneLine) {
  EXPECT_EQ(request_line(1, "undo", {{"gauge", "a\nb"}}).find('\n'), std::string::npos);
}

TEST(Request, ThatIsNoJsonIsAnsweredUnderNull) {
  for (const auto* line : {"", "{", "not json", R"({"jsonrpc":"2.0","id":1,"method":"a"} x)", "\xFF\xFE"}) {
    const auto why = malformed(line);
    EXPECT_EQ(why.code, kNotJson) << line;
    EXPECT_EQ(why.id, nullptr);
    EXPECT_FALSE(why.message.empty());
  }
}

TEST(Request, OfAWrongShapeNamesWhatIsWrong) {
  EXPECT_EQ(malformed("[]").code, kNoRequest);
  EXPECT_EQ(malformed("3").code, kNoRequest);
  EXPECT_EQ(malformed(R"({"id":1,"method":"a"})").code, kNoRequest);
  EXPECT_EQ(malformed(R"({"jsonrpc":"1.0","id":1,"method":"a"})").code, kNoRequest);
  EXPECT_EQ(malformed(R"({"jsonrpc":"2.0","id":1})").code, kNoRequest);
  EXPECT_EQ(malformed(R"({"jsonrpc":"2.0","id":1,"method":3})").code, kNoRequest);
  EXPECT_EQ(malformed(R"({"jsonrpc":"2.0","id":1,"method":"a","params":[1]})").code, kNoObject);
}

TEST(Request, KeepsItsIdWhereItCanBeRead) {
  EXPECT_EQ(malformed(R"({"jsonrpc":"2.0","id":"x9","method":3})").id, "x9");
  EXPECT_EQ(malformed(R"({"jsonrpc":"2.0","id":{},"method":3})").id, nullptr);
}

TEST(Request, IsBoundedInLengthAndDepth) {
  const std::string open = R"({"jsonrpc":"2.0","id":1,"method":"a","params":{"t":")";
  const std::string close = R"("}})";
  const std::string most(kMostRequestBytes - open.size() - close.size(), 'x');
  EXPECT_TRUE(parse_request(open + most + close));
  EXPECT_EQ(malformed(open + most + "x" + close).code, kNoRequest);
  const std::string deep = std::string(40, '[') + std::string(40, ']');
  EXPECT_EQ(malformed(R"({"jsonrpc":"2.0","id":1,"method":"a","params":{"t":)" + deep + "}}").code, kNotJson);
}

RC_GTEST_PROP(RequestProperty, NeverThrowsOnAnyBytes, (const std::string& bytes)) {
  const auto parsed = parse_request(bytes);
  if (!parsed) RC_ASSERT(parse_json(error_line(parsed.error()), kMostRequestBytes).has_value());
}

RC_GTEST_PROP(RequestProperty, NeverThrowsOnBrokenRequests, ()) {
  std::string line = request_line(3, "gauge.add", {{"name", "bore"}, {"port", "hand"}, {"drift", "0.0001 in"}});
  const auto at = *rc::gen::inRange<std::size_t>(0, line.size());
  line[at] = *rc::gen::arbitrary<char>();
  const auto parsed = parse_request(line);
  if (!parsed) RC_ASSERT(!parsed.error().message.empty());
}

TEST(Answer, ResultComesBackWhole) {
  const Json result = {{"seqs", {1, 2}}, {"place", nullptr}};
  EXPECT_EQ(parse_answer(result_line(4, result), 4).value(), result);
  EXPECT_EQ(parse_answer(result_line(4, nullptr), 4).value(), nullptr);
}

TEST(Answer, RefusalComesBackWhole) {
  for (const auto exit : {Exit::words, Exit::refused}) {
    const Refusal refusal{exit, "unknown_engine", "there is no engine 'K3'", "did you mean 'K31'?"};
    EXPECT_EQ(parse_answer(error_line(Json(4), refusal), 4).error(), refusal);
  }
}

TEST(Answer, MalformedRequestIsRefusedWithItsMessage) {
  const auto refusal = parse_answer(error_line(Malformed{-32601, nullptr, "no method 'frob'"}), 4).error();
  EXPECT_EQ(refusal.exit, Exit::refused);
  EXPECT_EQ(refusal.message, "no method 'frob'");
  EXPECT_EQ(Json::parse(error_line(Malformed{-32601, "a", "no"})).at("error").at("code"), -32601);
}

TEST(Answer, UsesTheCodesOfJsonRpcWhereTheyFit) {  // JSON-RPC 2.0, section 5.1
  const auto code = [](const std::string& word) {
    return Json::parse(error_line(Json(1), Refusal{Exit::words, word, "no", ""})).at("error").at("code");
  };
  EXPECT_EQ(code("method"), -32601);
  EXPECT_EQ(code("params"), -32602);
  EXPECT_EQ(code("unknown_engine"), -32000);
}

TEST(Answer, ThatMakesNoSenseIsOneOfReach) {
  for (const auto* line :
       {"", "[]", "nonsense", R"({"jsonrpc":"2.0","id":5,"result":1})", R"({"id":4,"result":1})",
        R"({"jsonrpc":"2.0","id":4})", R"({"jsonrpc":"2.0","id":null,"result":1})",
        R"({"jsonrpc":"2.0","id":4,"error":"broken"})", R"({"jsonrpc":"2.0","id":4,"error":{"code":1}})"}) {
    const auto answer = parse_answer(line, 4);
    ASSERT_FALSE(answer) << line;
    EXPECT_EQ(answer.error().exit, Exit::unreachable) << line;
    EXPECT_FALSE(answer.error().remedy.empty()) << line;
  }
}

TEST(Answer, OnlyTwoAndFourAreTheDaemonsToGive) {
  const auto* line = R"({"jsonrpc":"2.0","id":4,"error":{"code":-32000,"message":"no","data":{"exit":0}}})";
  EXPECT_EQ(parse_answer(line, 4).error().exit, Exit::refused);
}

TEST(ErrorLine, TakesTextThatIsNotUtf8) {
  const Refusal refusal{Exit::refused, "file", "no file '\xFF'", "look"};
  EXPECT_TRUE(parse_json(error_line(Json(1), refusal), kMostRequestBytes));
}

TEST(EventLine, IsACallWithoutAnId) {
  const Json event = {{"event", "hello"}, {"version", 1}, {"seq", 12}};
  const auto read = parse_request(event_line(event));
  ASSERT_TRUE(read);
  EXPECT_EQ(read->id, nullptr);
  EXPECT_EQ(read->method, "event");
  EXPECT_EQ(read->params, event);
}

}  // namespace
}  // namespace tenth
