#include "simulators/loop.hpp"

#include <poll.h>
#include <sys/signalfd.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <csignal>
#include <ostream>
#include <utility>

namespace tenth::simulators {

Signals::Signals() {
  sigset_t ends;
  sigemptyset(&ends);
  sigaddset(&ends, SIGTERM);
  sigaddset(&ends, SIGINT);
  sigprocmask(SIG_BLOCK, &ends, nullptr);
  std::signal(SIGPIPE, SIG_IGN);
  descriptor_ = ::signalfd(-1, &ends, SFD_CLOEXEC);
}

Signals::~Signals() {
  ::close(descriptor_);
}

Loop::Loop(const Scenario& scenario, Player player, std::unique_ptr<Control> control, std::ostream& out,
           std::ostream& err)
    : scenario_(scenario), player_(std::move(player)), control_(std::move(control)), out_(out), err_(err) {}

int Loop::run(const Signals& signals) {
  out_ << "ready" << std::endl;
  while (!ended_) {
    if (!play_due()) return 1;
    if (next_ == scenario_.play.size() && !scenario_.stay && !control_) return 0;
    const int control = control_ ? control_->descriptor() : -1;  // poll passes over -1
    std::array<pollfd, 2> waiting = {{{signals.descriptor(), POLLIN, 0}, {control, POLLIN, 0}}};
    ::poll(waiting.data(), waiting.size(), patience());
    if (waiting[0].revents != 0) return 0;
    if (waiting[1].revents != 0) obey();
    player_.forget_dead_readers();
  }
  return 0;
}

/// Does the acts that are due; false where one cannot be done.
bool Loop::play_due() {
  while (next_ < scenario_.play.size() && !told_ && Clock::now() >= due_) {
    const auto& act = scenario_.play[next_++];
    if (const auto* wait = std::get_if<Wait>(&act)) {
      told_ = !wait->time;
      due_ = Clock::now() + wait->time.value_or(std::chrono::milliseconds(0));
      continue;
    }
    const auto done = player_.perform(act);
    if (!done) {
      err_ << "tenth-sim: act " << next_ << " of play: " << done.error() << std::endl;
      return false;
    }
    err_ << gauge_of(act) << " " << *done << std::endl;
  }
  return true;
}

/// Milliseconds until the next act, and never long: a dead reader's mark is looked for in between.
int Loop::patience() const {
  constexpr std::chrono::milliseconds kLongest(200);
  if (next_ == scenario_.play.size() || told_) return static_cast<int>(kLongest.count());
  const auto left = std::chrono::ceil<std::chrono::milliseconds>(due_ - Clock::now());
  return static_cast<int>(std::clamp(left, std::chrono::milliseconds(0), kLongest).count());
}

void Loop::obey() {
  for (const auto& line : control_->lines()) {
    if (!ended_ && !line.empty()) out_ << answer(line) << std::endl;
  }
  if (control_->ended()) control_.reset();
}

std::string Loop::answer(const std::string& line) {
  if (line == "quit") {
    ended_ = true;
    return "ok";
  }
  if (line == "go") return std::exchange(told_, false) ? "ok" : "error: nothing waits for go";
  const auto act = parse_act(line);
  if (!act) return "error: " + act.error();
  if (std::holds_alternative<Wait>(*act)) return "error: wait stands in a scenario's play only";
  const auto done = player_.perform(*act);
  if (!done) return "error: " + done.error();
  return done->empty() ? "ok" : "ok " + *done;
}

}  // namespace tenth::simulators
