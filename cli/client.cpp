#include "cli/client.hpp"

#include <filesystem>
#include <stdexcept>

namespace tenth::cli {
namespace {

Result<std::string> line_of(std::int64_t id, const std::string& method, const Json& params) {
  Json given = Json::object();
  for (const auto& [key, value] : params.items())
    if (!value.is_null()) given[key] = value;
  std::string line;
  try {
    line = request_line(id, method, given);
  } catch (const std::invalid_argument&) {
    return wrong_words("not_utf8", "a text is not UTF-8", "write it in UTF-8");
  }
  if (line.size() > kMostRequestBytes)
    return refuse("too_long", "the request is longer than 1 MiB", "shorten the file or the text");
  return line;
}

/// An event is a call without an id.
Result<Json> event_of(const std::string& line) {
  auto event = parse_request(line);
  if (event && event->method == "event") return std::move(event->params);
  return tl::unexpected(
      Refusal{Exit::unreachable, "bad_answer",
              event ? "the daemon sent no event" : "an event cannot be read: " + event.error().message,
              "see that the socket is tenthd's, and of the same version"});
}

}  // namespace

std::string socket_path(const std::string& option, const World& world) {
  if (!option.empty()) return option;
  if (const auto named = world.variable("TENTH_SOCKET"); !named.empty()) return named;
  const std::string machine = "/run/tenth/tenthd.sock";
  const auto runtime = world.variable("XDG_RUNTIME_DIR");
  if (runtime.empty()) return machine;
  const std::string own = runtime + "/tenth/tenthd.sock";
  std::error_code ignored;
  return !std::filesystem::exists(own, ignored) && std::filesystem::exists(machine, ignored) ? machine : own;
}

Result<Client> Client::connect(const std::string& path, std::chrono::milliseconds patience) {
  auto socket = Socket::connect(path);
  if (!socket) return tl::unexpected(socket.error());
  Client client(std::move(*socket));
  const auto hello = client.call("hello", {{"version", kWireVersion}, {"client", "tenth " TENTH_VERSION}}, patience);
  if (!hello && hello.error().code != "version") return tl::unexpected(hello.error());
  if (hello && hello->is_object() && hello->value("version", Json()) == kWireVersion) return client;
  const std::string why = hello ? "" : ": " + hello.error().message;
  return tl::unexpected(Refusal{Exit::unreachable, "version",
                                "tenth " TENTH_VERSION " and the daemon speak different versions" + why,
                                "restart tenthd from the same installation as tenth"});
}

Result<Json> Client::call(const std::string& method, const Json& params, std::chrono::milliseconds patience) {
  const std::int64_t id = ++calls_;
  const auto line = line_of(id, method, params);
  if (!line) return tl::unexpected(line.error());
  const auto sent = socket_.send_line(*line);
  const auto answer = socket_.read_line(sent ? patience : std::chrono::milliseconds(100));
  if (!sent && !answer) return tl::unexpected(sent.error());  // sent away, it may have said why before it hung up
  if (!answer) return tl::unexpected(answer.error());
  return parse_answer(*answer, id);
}

Result<Json> Client::next_event() {
  const auto line = socket_.read_line(std::nullopt);
  if (!line) return tl::unexpected(line.error());
  return event_of(*line);
}

Result<std::optional<Json>> Client::event_within(std::chrono::milliseconds patience) {
  TENTH_TRY(const auto line, socket_.line_within(patience));
  if (!line) return std::nullopt;
  TENTH_TRY(Json event, event_of(*line));
  return event;
}

}  // namespace tenth::cli
