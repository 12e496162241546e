#include "schema/wire/rpc.hpp"

#include "schema/json/escape.hpp"

namespace tenth {
namespace {

constexpr int kNotJson = -32700;
constexpr int kNoRequest = -32600;
constexpr int kNoMethod = -32601;
constexpr int kWrongParams = -32602;
constexpr int kRefused = -32000;

Json numbered(const Json& id) {
  return {{"jsonrpc", "2.0"}, {"id", id}};
}

bool is_id(const Json& id) {
  return id.is_string() || id.is_number() || id.is_null();
}

bool speaks_2_0(const Json& message) {
  return message.is_object() && message.value("jsonrpc", Json()) == "2.0";
}

std::string failure(const Json& id, int code, const std::string& message, const Json& data) {
  Json line = numbered(id);
  line["error"] = {{"code", code}, {"message", valid_utf8(message)}, {"data", data}};
  return canonical(line);
}

tl::unexpected<Refusal> bad_answer(const std::string& why) {
  return tl::unexpected(Refusal{Exit::unreachable, "bad_answer", "the daemon's answer makes no sense: " + why,
                                "see that the socket is tenthd's, and of the same version"});
}

std::string text_at(const Json& object, const char* key) {
  const auto found = object.find(key);
  return found != object.end() && found->is_string() ? found->get<std::string>() : std::string();
}

/// The daemon's refusal as it meant it; only 2 and 4 are its to give.
Result<Json> refusal_of(const Json& error) {
  if (!error.is_object() || text_at(error, "message").empty()) return bad_answer("an error without a message");
  const Json data = error.value("data", Json());
  Refusal refusal{Exit::refused, "refused", text_at(error, "message"), ""};
  if (!data.is_object()) return tl::unexpected(refusal);
  if (data.value("exit", Json()) == 2) refusal.exit = Exit::words;
  if (const auto code = text_at(data, "code"); !code.empty()) refusal.code = code;
  refusal.remedy = text_at(data, "do");
  return tl::unexpected(refusal);
}

}  // namespace

tl::expected<Request, Malformed> parse_request(std::string_view line) {
  if (line.size() > kMostRequestBytes)
    return tl::unexpected(Malformed{kNoRequest, nullptr, "a request is at most 1 MiB long"});
  const auto call = parse_json(line, kMostRequestBytes);
  if (!call) return tl::unexpected(Malformed{kNotJson, nullptr, call.error().message});
  if (!call->is_object()) return tl::unexpected(Malformed{kNoRequest, nullptr, "a request is one JSON object"});
  const auto named = call->find("id");
  const Json id = named != call->end() && is_id(*named) ? *named : Json(nullptr);
  if (named != call->end() && !is_id(*named))
    return tl::unexpected(Malformed{kNoRequest, nullptr, "\"id\" is no text, number or null"});
  if (!speaks_2_0(*call)) return tl::unexpected(Malformed{kNoRequest, id, "\"jsonrpc\" is not \"2.0\""});
  const std::string method = text_at(*call, "method");
  if (method.empty()) return tl::unexpected(Malformed{kNoRequest, id, "\"method\" is not the name of a method"});
  Json params = call->value("params", Json());
  if (params.is_null()) params = Json::object();
  if (!params.is_object()) return tl::unexpected(Malformed{kWrongParams, id, "\"params\" is not an object"});
  return Request{id, method, std::move(params), named != call->end()};
}

std::string request_line(std::int64_t id, std::string_view method, const Json& params) {
  Json line = numbered(id);
  line["method"] = method;
  line["params"] = params;
  return canonical(line);
}

std::string result_line(const Json& id, const Json& result) {
  Json line = numbered(id);
  line["result"] = result;
  return canonical(line);
}

std::string error_line(const Json& id, const Refusal& refusal) {
  const int code = refusal.code == "method" ? kNoMethod : refusal.code == "params" ? kWrongParams : kRefused;
  return failure(id, code, refusal.message,
                 {{"code", valid_utf8(refusal.code)},
                  {"do", valid_utf8(refusal.remedy)},
                  {"exit", refusal.exit == Exit::words ? 2 : 4}});
}

std::string error_line(const Malformed& malformed) {
  return failure(malformed.id, malformed.code, malformed.message,
                 {{"code", "malformed"}, {"do", "send one request a line, as schema/wire.md says"}, {"exit", 4}});
}

std::string event_line(const Json& event) {
  return canonical({{"jsonrpc", "2.0"}, {"method", "event"}, {"params", event}});
}

Result<Json> parse_answer(std::string_view line, std::int64_t id) {
  auto answer = parse_json(line, kMostAnswerBytes);
  if (!answer) return bad_answer(answer.error().message);
  if (!speaks_2_0(*answer)) return bad_answer("it is no JSON-RPC 2.0");
  const Json named = answer->value("id", Json());
  const bool failed = answer->contains("error");
  // An answer to a line that could not be read names no id.
  if (named != id && !(failed && named.is_null())) return bad_answer("it is not the answer to what was asked");
  if (failed) return refusal_of((*answer)["error"]);
  if (!answer->contains("result")) return bad_answer("it holds neither a result nor an error");
  return std::move((*answer)["result"]);
}

}  // namespace tenth
