#include "rules/alerts.hpp"

#include <algorithm>

#include "rules/names.hpp"

namespace tenth {
namespace {

constexpr Names<Severity, 2> kSeverities{{"stop", "look"}};
constexpr Names<AlertWhat, 8> kWhats{
    {"out", "doubtful", "suspect", "drift", "overdue", "temperature", "gauge", "claim"}};
constexpr Names<AlertState, 3> kStates{{"open", "ended", "cleared"}};

bool same(const Cause& a, const Cause& b) {
  return a.engine == b.engine && a.what == b.what && a.subject == b.subject;
}

/// An alert that still stands for a cause: an ended one is history, and so is a cleared one whose cause went.
bool stands(const Alert& alert) {
  return alert.state != AlertState::ended && alert.lasting;
}

}  // namespace

AlertChanges compare(std::span<const Alert> alerts, std::span<const Cause> now) {
  AlertChanges changes;
  for (const Cause& cause : now)
    if (std::ranges::none_of(alerts, [&](const Alert& alert) { return stands(alert) && same(alert.cause, cause); }))
      changes.raise.push_back(cause);
  for (const Alert& alert : alerts)
    if (stands(alert) && cause_of(alert, now) == nullptr) changes.end.push_back(alert.id);
  return changes;
}

const Cause* cause_of(const Alert& alert, std::span<const Cause> now) {
  const auto found = std::ranges::find_if(now, [&](const Cause& cause) { return same(alert.cause, cause); });
  return found == now.end() ? nullptr : &*found;
}

std::string_view name(Severity severity) {
  return kSeverities.of(severity);
}
std::string_view name(AlertWhat what) {
  return kWhats.of(what);
}
std::string_view name(AlertState state) {
  return kStates.of(state);
}

std::optional<AlertWhat> alert_what_named(std::string_view word) {
  return kWhats.find(word);
}

}  // namespace tenth
