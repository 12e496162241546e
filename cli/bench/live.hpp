#pragma once

#include <chrono>
#include <optional>
#include <string>

#include "cli/follow.hpp"

namespace tenth::cli {

/// The daemon's answer to `bench`, asked again when something happened and twice a second anyway, so that a daemon that
/// is gone, or stands, is known within 2 s. Reaches it again when it is back.
class Live {
 public:
  using Millis = std::chrono::milliseconds;

  /// Refused as `Client::connect` does: at first the daemon has to be there.
  static Result<Live> begin(const std::string& path);

  /// Waits so long at most, for something to happen, and asks again where it is time.
  void step(Millis patience);
  const Json& bench() const { return bench_; }
  /// How old the answer is, in seconds; nothing while the daemon answers.
  std::optional<std::int64_t> stale_s() const;

  /// A command for this gauge; what became of it, in a line.
  std::string act(const std::string& method, const Json& gauge);

 private:
  using Clock = std::chrono::steady_clock;
  Live(std::string path, Follow follow) : path_(std::move(path)), follow_(std::move(follow)) {}
  Result<void> ask();

  std::string path_;
  Follow follow_;
  std::optional<Client> asking_;
  Json bench_;
  Clock::time_point answered_, asked_;
  bool answers_ = true;
};

}  // namespace tenth::cli
