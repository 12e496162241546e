#include "cli/follow.hpp"

#include <algorithm>
#include <thread>

namespace tenth::cli {

Result<Follow> Follow::begin(const std::string& path) {
  Follow follow(path);
  if (auto connected = follow.connect(Client::kPatience); !connected) return tl::unexpected(connected.error());
  return follow;
}

Result<void> Follow::connect(Millis patience) {
  TENTH_TRY(Client client, Client::connect(path_, patience));
  TENTH_TRY(status_, client.call("status", Json::object(), patience));
  TENTH_TRY(const Json watching, client.call("watch", Json::object(), patience));
  client_ = std::move(client);
  return {};
}

std::optional<Json> Follow::next(Millis patience) {
  if (!client_) return try_again(patience);
  auto event = client_->event_within(patience);
  if (event && *event && (*event)->value("event", "") == "lost") {
    client_.reset();
    if (connect(kAgain)) return std::move(*event);
    return Json{{"event", "gone"}, {"why", "the daemon cut this off: it did not read"}};
  }
  if (event) return std::move(*event);
  client_.reset();
  return Json{{"event", "gone"}, {"why", event.error().message}};
}

std::optional<Json> Follow::try_again(Millis patience) {
  std::this_thread::sleep_for(std::min(patience, kAgain));
  if (!connect(kAgain)) return std::nullopt;
  return Json{{"event", "back"}};
}

}  // namespace tenth::cli
