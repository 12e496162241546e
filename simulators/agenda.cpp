#include "simulators/agenda.hpp"

#include <utility>

namespace tenth::simulators {

std::optional<Time> Agenda::next() const {
  if (tasks_.empty()) return std::nullopt;
  return tasks_.begin()->first;
}

void Agenda::run(Time now) {
  std::multimap<Time, Task> due;
  while (!tasks_.empty() && tasks_.begin()->first <= now) due.insert(tasks_.extract(tasks_.begin()));
  for (auto& [when, task] : due) task(now);
}

}  // namespace tenth::simulators
