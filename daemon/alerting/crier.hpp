#pragma once

#include <chrono>
#include <cstdint>
#include <map>
#include <optional>
#include <vector>

#include "schema/json/json.hpp"

namespace tenth {

/// Says which alerts are to be told, and when: each once as it happens, an open one again and again until it ends or a
/// person clears it, a flood in one summary. Holds what is open; has no clock, only the times it is given (steady, ns).
class Crier {
 public:
  using Span = std::chrono::nanoseconds;

  struct Times {
    /// After each telling until the next; the last one goes on for ever.
    std::vector<Span> again = {std::chrono::minutes(1),  std::chrono::minutes(2),  std::chrono::minutes(5),
                               std::chrono::minutes(10), std::chrono::minutes(30), std::chrono::hours(1)};
    /// So many are told one by one within `window`; the others together when it is over.
    std::size_t most = 10;
    Span window = std::chrono::seconds(10);
  };
  Crier() = default;
  explicit Crier(Times times) : times_(std::move(times)) {}

  /// An alert that was open before this start: it was told, and will be told again.
  void resume(const Json& alert, std::int64_t now_ns);
  /// An `alert` event; true where it is to be told now, one by one.
  bool hear(const Json& alert, std::int64_t now_ns);
  /// What is to be told now though nothing happened: open alerts again (`again`: how often before), and summaries.
  std::vector<Json> due(std::int64_t now_ns);
  /// When `due` has something next; nothing while all is quiet.
  std::optional<std::int64_t> next_ns() const;

 private:
  struct Open {
    Json alert;
    std::size_t told = 1;
    std::int64_t next_ns = 0;
  };
  bool pass(std::int64_t id, std::int64_t now_ns);
  void told(Open& open, std::int64_t now_ns) const;
  Json summary() const;

  Times times_;
  std::map<std::int64_t, Open> open_;  ///< by the alert's id
  std::int64_t window_until_ns_ = 0;
  std::size_t in_window_ = 0;          ///< told one by one in this window
  std::map<std::int64_t, Json> held_;  ///< to be told together; by id, the last that was said of each
};

}  // namespace tenth
