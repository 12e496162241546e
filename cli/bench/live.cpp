#include "cli/bench/live.hpp"

#include "cli/render/text.hpp"

namespace tenth::cli {
namespace {

constexpr Live::Millis kAskAgain(500);
constexpr Live::Millis kAnswer(1'000);  ///< past that it is as good as gone
constexpr Live::Millis kDone(5'000);    ///< for an act: a slow disk takes its time

}  // namespace

Result<Live> Live::begin(const std::string& path) {
  TENTH_TRY(Follow follow, Follow::begin(path));
  Live live(path, std::move(follow));
  if (auto asked = live.ask(); !asked) return tl::unexpected(asked.error());
  return live;
}

Result<void> Live::ask() {
  asked_ = Clock::now();
  if (!asking_) {
    TENTH_TRY(asking_, Client::connect(path_, kAnswer));
  }
  auto answer = asking_->call("bench", Json::object(), kAnswer);
  if (!answer) {
    asking_.reset();  // an answer that comes late would be taken for another
    return tl::unexpected(answer.error());
  }
  bench_ = std::move(*answer);
  answered_ = Clock::now();
  return {};
}

void Live::step(Millis patience) {
  bool happened = false;
  while (follow_.next(happened ? Millis(0) : patience)) {
    happened = true;
    if (!follow_.connected()) break;
  }
  if (happened || Clock::now() - asked_ >= kAskAgain) answers_ = ask().has_value();
}

std::optional<std::int64_t> Live::stale_s() const {
  if (answers_) return std::nullopt;
  return std::chrono::duration_cast<std::chrono::seconds>(Clock::now() - answered_).count();
}

std::string Live::act(const std::string& method, const Json& gauge) {
  if (!asking_) return "! not done: the daemon is gone";
  const auto done = asking_->call(method, {{"gauge", gauge}}, kDone);
  if (done) return method + ": done";
  if (done.error().exit == Exit::unreachable) {
    asking_.reset();
    return "! " + method + ": not known whether it was done; look before you press again";
  }
  return "! " + done.error().message + "; " + done.error().remedy;
}

}  // namespace tenth::cli
