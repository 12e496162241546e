#pragma once

#include <chrono>
#include <optional>
#include <string>

#include "cli/client.hpp"

namespace tenth::cli {

/// Follows what happens through restarts of the daemon. What it tells besides the daemon's events:
/// `{"event":"gone","why":TEXT}` when the daemon cannot be heard any more, and `{"event":"back"}`. After `lost` it is
/// connected anew: what came between was not heard.
class Follow {
 public:
  using Millis = std::chrono::milliseconds;
  static constexpr Millis kAgain{500};  ///< between two tries to reach it, and for each of its answers then

  /// Refused as `Client::connect` does: at first the daemon has to be there.
  static Result<Follow> begin(const std::string& path);

  /// The next event; nothing where none came within `patience`.
  std::optional<Json> next(Millis patience);
  bool connected() const { return client_.has_value(); }
  /// The daemon's answer to `status`, as it was connected last.
  const Json& status() const { return status_; }

 private:
  explicit Follow(std::string path) : path_(std::move(path)) {}
  Result<void> connect(Millis patience);
  std::optional<Json> try_again(Millis patience);

  std::string path_;
  std::optional<Client> client_;
  Json status_;
};

}  // namespace tenth::cli
