// `tenth --json watch` in a child: events are waited for, never slept for.
#pragma once

#include <functional>
#include <list>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "tests/end_to_end/process.hpp"

namespace acceptance {

using nlohmann::json;
using Test = std::function<bool(const json&)>;

class Watch {
 public:
  // Waits for the greeting, so that nothing that happens afterwards is missed.
  explicit Watch(const Words& options = {});

  const json& hello() const { return hello_; }
  Child& child() { return child_; }

  // The first event of this name (for which the test holds) that was not asked for before; others are kept. At the
  // deadline it throws, which ends the test.
  json next(std::string_view event, const Test& test = {}, Millis wait = std::chrono::seconds(15));
  // Has such an event come already, unasked for? Only what was read so far counts: wait for a later event first.
  bool heard(std::string_view event, const Test& test = {}) const;
  // Forgets everything that was read so far.
  void forget() { events_.clear(); }

 private:
  Child child_;
  json hello_;
  std::list<json> events_;
};

}  // namespace acceptance
