#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "rules/judge.hpp"

namespace tenth {

enum class Severity { stop, look };
enum class AlertWhat { out, doubtful, suspect, drift, overdue, temperature, gauge, claim };
enum class AlertState { open, ended, cleared };

/// Something that somebody must see. One per engine, `what` and subject while not cleared.
struct Cause {
  std::optional<std::string> engine;
  AlertWhat what = AlertWhat::out;
  Severity severity = Severity::stop;
  std::string subject;  ///< "main_clearance 3", "bore 2", a place, a gauge
  std::string text;     ///< one line for a person
  std::optional<Length> value, limit;
  std::vector<std::int64_t> seqs;
};

struct Alert {
  std::int64_t id = 0;  ///< seq of the entry that raised it
  std::string time;
  Cause cause;
  AlertState state = AlertState::open;
  bool lasting = true;  ///< its cause is still there
  std::string note, cleared_by;
};

/// What speaks in one engine: figures that are out or doubtful, fits of which one side only is at 20 °C, readings held
/// as suspect, parts measured before a check that must come first. Texts give lengths in the spec's unit.
std::vector<Cause> causes(const Engine& engine, const Report& report);

/// What has to be told: causes without an alert are raised; alerts whose cause is gone are ended. A cleared alert stays
/// silent while its cause lasts, and its cause raises a new one when it returns.
struct AlertChanges {
  std::vector<Cause> raise;
  std::vector<std::int64_t> end;
};
AlertChanges compare(std::span<const Alert> alerts, std::span<const Cause> now);

/// The cause that an alert stands for as it is now, nothing where it is gone.
const Cause* cause_of(const Alert& alert, std::span<const Cause> now);

std::string_view name(Severity);
std::string_view name(AlertWhat);
std::string_view name(AlertState);
std::optional<AlertWhat> alert_what_named(std::string_view);

}  // namespace tenth
