#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "cli/socket.hpp"
#include "cli/world.hpp"
#include "schema/wire/rpc.hpp"

namespace tenth::cli {

/// Where the daemon is asked for: `--socket`, TENTH_SOCKET, the user's own daemon, or the machine's.
std::string socket_path(const std::string& option, const World& world);

/// A conversation with the daemon: hello, calls, events. What cannot be reached or understood: exit status 3.
class Client {
 public:
  /// A commit on a bad disk takes seconds, never this long.
  static constexpr std::chrono::seconds kPatience{30};

  static Result<Client> connect(const std::string& path, std::chrono::milliseconds patience = kPatience);

  /// Keys of `params` that are null are left out.
  /// `patience` is for a call that takes its time.
  Result<Json> call(const std::string& method, const Json& params, std::chrono::milliseconds patience = kPatience);
  /// Waits for the next event, without limit.
  Result<Json> next_event();
  /// The same; nothing where none came in time.
  Result<std::optional<Json>> event_within(std::chrono::milliseconds patience);
  int descriptor() const { return socket_.descriptor(); }

 private:
  explicit Client(Socket socket) : socket_(std::move(socket)) {}
  Socket socket_;
  std::int64_t calls_ = 0;
};

}  // namespace tenth::cli
