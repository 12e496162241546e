#include "drivers/burst.hpp"

#include <algorithm>
#include <utility>

namespace tenth::drivers {

void Burst::opened(bool bytes_waited) {
  faulty_ = false;
  beginning_unseen_ = bytes_waited;
}

std::vector<Judged> Burst::take(std::vector<Event> events, std::int64_t now_ns, bool whole_by_length) {
  if (now_ns - last_ns_ >= kPause_ns) faulty_ = false;
  last_ns_ = now_ns;
  const auto is_fault = [](const Event& event) { return std::holds_alternative<Fault>(event); };
  faulty_ = faulty_ || std::any_of(events.begin(), events.end(), is_fault);
  std::vector<Judged> judged;
  for (Event& event : events) {
    const bool unseen = std::exchange(beginning_unseen_, false) && !whole_by_length;
    const bool damaged = !is_fault(event) && (faulty_ || unseen);
    judged.push_back(Judged{std::move(event), damaged, unseen});
  }
  return judged;
}

}  // namespace tenth::drivers
