#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "rules/result.hpp"
#include "schema/json/json.hpp"

namespace tenth {

inline constexpr int kWireVersion = 1;
inline constexpr std::size_t kMostRequestBytes = 1 << 20;
/// An answer may be a page of entries with whole spec files in them.
inline constexpr std::size_t kMostAnswerBytes = 128 << 20;

/// One call, as `schema/wire.md` describes it.
struct Request {
  Json id;
  std::string method;
  Json params;               ///< an object
  bool wants_answer = true;  ///< false: a notification, which names no id
};

/// A malformed line: JSON-RPC's own code, and what was wrong.
struct Malformed {
  int code = -32600;
  Json id;
  std::string message;
};

/// One line without its LF, as the daemon reads it. Never throws.
tl::expected<Request, Malformed> parse_request(std::string_view line);

/// Lines without LF.
std::string request_line(std::int64_t id, std::string_view method, const Json& params);
std::string result_line(const Json& id, const Json& result);
std::string error_line(const Json& id, const Refusal& refusal);
std::string error_line(const Malformed& malformed);
std::string event_line(const Json& event);

/// One line from the daemon, as the command line reads it: the result, or the refusal. Events are for `watch`.
Result<Json> parse_answer(std::string_view line, std::int64_t id);

}  // namespace tenth
