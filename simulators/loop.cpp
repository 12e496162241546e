#include "simulators/loop.hpp"

#include <poll.h>
#include <sys/signalfd.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <ostream>
#include <utility>
#include <vector>

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
    player_.run(Clock::now());
    if (!play_due()) return 1;
    const bool played = next_ == scenario_.play.size() && Clock::now() >= due_;
    if (played && !scenario_.stay && !control_) return 0;
    if (!sleep(signals.descriptor())) return 0;
    player_.forget_dead_readers();
  }
  return 0;
}

/// Until something comes or is due, which is heard and obeyed; false on a signal.
bool Loop::sleep(int signals) {
  const int control = control_ ? control_->descriptor() : -1;  // poll passes over -1
  std::vector<pollfd> waiting = {{signals, POLLIN, 0}, {control, POLLIN, 0}};
  for (const int port : player_.descriptors()) waiting.push_back({port, POLLIN, 0});
  const auto time = std::chrono::nanoseconds(patience()).count();
  const timespec longest{time / 1'000'000'000, time % 1'000'000'000};
  ::ppoll(waiting.data(), waiting.size(), &longest, nullptr);
  if (waiting[0].revents != 0) return false;
  const bool asked =
      std::any_of(waiting.begin() + 2, waiting.end(), [](const auto& port) { return port.revents != 0; });
  if (asked) player_.hear(Clock::now());
  if (waiting[1].revents != 0) obey();
  return true;
}

/// Begins the acts that are due, each when the one before is over; false where one cannot be done.
bool Loop::play_due() {
  while (next_ < scenario_.play.size() && !told_ && Clock::now() >= due_) {
    const auto& act = scenario_.play[next_++];
    if (const auto* wait = std::get_if<Wait>(&act)) {
      told_ = !wait->time;
      due_ = Clock::now() + wait->time.value_or(std::chrono::milliseconds(0));
      continue;
    }
    const auto done = player_.perform(act, Clock::now());
    if (!done) {
      err_ << "tenth-sim: act " << next_ << " of play: " << done.error() << std::endl;
      return false;
    }
    due_ = Clock::now() + done->lasts;
    err_ << gauge_of(act) << " " << done->text << std::endl;
  }
  return true;
}

/// Until the next act or the next thing that a gauge does, and never long: a dead reader's mark is looked for in
/// between.
std::chrono::nanoseconds Loop::patience() const {
  constexpr std::chrono::nanoseconds kNone(0), kLongest(std::chrono::milliseconds(200));
  const auto now = Clock::now();
  auto left = kLongest;
  if (const auto next = player_.next()) left = std::min(left, *next - now);
  if (!told_ && due_ > now) left = std::min(left, due_ - now);
  return std::max(left, kNone);
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
  const auto done = player_.perform(*act, Clock::now());
  if (!done) return "error: " + done.error();
  return done->text.empty() ? "ok" : "ok " + done->text;
}

}  // namespace tenth::simulators
