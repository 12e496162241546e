#include "tests/end_to_end/answering.hpp"

#include <poll.h>
#include <unistd.h>

#include <array>
#include <chrono>

namespace acceptance {

Cut ended_by(std::string end) {
  return [end = std::move(end)](std::string_view bytes) {
    const std::size_t at = bytes.find(end);
    return at == std::string_view::npos ? std::size_t{0} : at + end.size();
  };
}

Cut of_length(std::size_t length) {
  return [length](std::string_view bytes) { return bytes.size() < length ? std::size_t{0} : length; };
}

Answering::Answering(int wire, Cut cut, Answer answer)
    : wire_(wire),
      cut_(std::move(cut)),
      answer_(std::move(answer)),
      thread_([this](const std::stop_token& stop) { serve(stop); }) {}

Answering::Answering(int wire, Cut cut, std::string always)
    : Answering(wire, std::move(cut), [always = std::move(always)](const std::string&) { return always; }) {}

Answering::~Answering() {
  thread_.request_stop();
}

void Answering::answer(Answer answer) {
  const std::lock_guard lock(mutex_);
  answer_ = std::move(answer);
}

void Answering::answer(std::string always) {
  answer([always = std::move(always)](const std::string&) { return always; });
}

std::vector<std::string> Answering::asked() const {
  const std::lock_guard lock(mutex_);
  return asked_;
}

// A pseudo-terminal whose near end is not open yet is hung up: then there is nothing to read, and it is looked at
// again.
void Answering::serve(const std::stop_token& stop) {
  std::string waiting;
  while (!stop.stop_requested()) {
    std::array<char, 512> bytes{};
    pollfd end{wire_, POLLIN, 0};
    const bool ready = poll(&end, 1, 5) > 0 && (end.revents & POLLIN) != 0;
    const ssize_t got = ready ? read(wire_, bytes.data(), bytes.size()) : 0;
    if (got > 0) {
      waiting.append(bytes.data(), static_cast<std::size_t>(got));
    } else if (end.revents != 0) {
      std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    while (const std::size_t length = cut_(waiting)) {
      const std::lock_guard lock(mutex_);
      asked_.push_back(waiting.substr(0, length));
      waiting.erase(0, length);
      const std::string answer = answer_(asked_.back());
      if (write(wire_, answer.data(), answer.size()) < 0) return;
    }
  }
}

}  // namespace acceptance
