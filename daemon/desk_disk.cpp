// What the desk does while the disk refuses.
#include <spdlog/spdlog.h>

#include <chrono>

#include "daemon/desk.hpp"

namespace tenth {
namespace {

constexpr std::int64_t kTellAgain_ns = 10'000'000'000;

Refusal not_known(const std::string& why) {
  return {Exit::refused, "not_known", "it is not known yet whether this was stored: " + why,
          "mend the disk: it is stored then, once; look before you say it again"};
}

}  // namespace

Refusal Desk::not_stored(const std::string& why) {
  return {Exit::refused, "not_stored", "nothing was stored: " + why, "make room or mend the disk, then say it again"};
}

void Desk::on_refused(const Refusal& refusal) {
  if (refusal.code == "not_known")  // the batch stays under way
    for (Answered& answered : std::exchange(batch_.answers, {}))
      answered.answer(tl::unexpected(not_known(refusal.message)));
  else
    take_back(refusal);
  for (Command& command : std::exchange(commands_, {})) command.answer(tl::unexpected(not_stored(refusal.message)));
  tell_refused(refusal);
  failing_ = true;
  if (when_idle_) return std::exchange(when_idle_, nullptr)(false);
  retry_later();
}

/// Nothing of the batch is on disk or will be: it was never decided.
void Desk::take_back(const Refusal& refusal) {
  under_way_ = false;
  decided_ = stored_;
  clock_offset_us_ = batch_.clock_offset_us;
  for (auto it = batch_.happenings.rbegin(); it != batch_.happenings.rend(); ++it)
    happenings_.push_front(std::move(*it));
  for (Answered& answered : std::exchange(batch_, {}).answers)
    answered.answer(tl::unexpected(not_stored(refusal.message)));
}

void Desk::tell_refused(const Refusal& refusal) {
  const std::size_t waiting = happenings_.size() + (under_way_ ? batch_.happenings.size() : 0);
  const std::int64_t now_ns = setup_.clock->now().mono_ns;
  if (failing_ && now_ns - last_told_ns_ < kTellAgain_ns) return;
  last_told_ns_ = now_ns;
  spdlog::error("not stored: {}; {} frames wait", refusal.message, waiting);
  tell({{"event", "fault"},
        {"gauge", nullptr},
        {"why", "not_stored"},
        {"text", refusal.message},
        {"raw", ""},
        {"bytes", 0},
        {"count", waiting}});
}

/// Tries again what waits; with nothing waiting, only until the ledger takes an empty batch's next entry.
void Desk::retry_later() {
  retry_.expires_after(setup_.ask_again);
  retry_.async_wait([this](const boost::system::error_code& error) {
    if (error) return;
    if (under_way_) return send();
    if (happenings_.empty()) failing_ = false;
    pump();
  });
}

}  // namespace tenth
