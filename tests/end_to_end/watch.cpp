#include "tests/end_to_end/watch.hpp"

#include <algorithm>
#include <stdexcept>

#include "tests/end_to_end/programs.hpp"

namespace acceptance {
namespace {

Words command(const Words& options) {
  Words words{tenth_path(), "--json", "watch"};
  words.insert(words.end(), options.begin(), options.end());
  return words;
}

bool is(const json& event, std::string_view name, const Test& test) {
  return event.value("event", "") == name && (!test || test(event));
}

}  // namespace

Watch::Watch(const Words& options) : child_(command(options)) {
  hello_ = next("hello");
}

json Watch::next(std::string_view event, const Test& test, Millis wait) {
  const auto fits = [&](const json& one) { return is(one, event, test); };
  const Deadline until = in(wait);
  auto found = std::find_if(events_.begin(), events_.end(), fits);
  while (found == events_.end()) {
    const std::optional<std::string> line = child_.line(until);
    if (!line) {
      std::string others;
      for (const json& one : events_) others += "\n  " + one.dump();
      throw std::runtime_error("no such event '" + std::string(event) + "' in time; not asked for so far:" + others +
                               child_.err);
    }
    events_.push_back(json::parse(*line));
    found = fits(events_.back()) ? std::prev(events_.end()) : events_.end();
  }
  json result = std::move(*found);
  events_.erase(found);
  return result;
}

bool Watch::heard(std::string_view event, const Test& test) const {
  return std::any_of(events_.begin(), events_.end(), [&](const json& one) { return is(one, event, test); });
}

}  // namespace acceptance
