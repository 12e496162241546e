#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rules/judge.hpp"
#include "rules/spec.hpp"

namespace tenth::paper {

/// A length for people in the spec's unit, without its name; empty where there is none. To the places people read, or
/// with as many more as it takes to show it whole; one more where no number of them would.
std::string figure(const std::optional<Length>& length, Unit unit);
std::string whole_figure(const std::optional<Length>& length, Unit unit);

/// "main_bearing" as people say it: "main bearing"; at the beginning of a heading: "Main bearing".
std::string spaced(std::string_view feature_or_fit);
std::string heading(std::string_view feature_or_fit);

/// "83.000 to 83.035", "at least 83.000", "at most 83.035", "no limits"; lengths in `unit`.
std::string limits_words(const Limits& limits, Unit unit);

/// What a reading came from: the gauge's name, "by hand", or "from a table".
std::string gauge_words(const Reading& reading);

/// "clearance 0.022 is 0.008 below the lower limit 0.030", with as many places as it takes to see the difference.
std::string reason_words(const Reason& reason, Unit unit);

/// "2026-03-01", "08:15:30" and both of an RFC 3339 time in UTC, which the paper says beside them.
std::string day_of(const std::string& time);
std::string time_of_day(const std::string& time);
std::string short_time(const std::string& time);

/// What the whole verdict means, in one sentence.
std::string verdict_sentence(const std::optional<Verdict>& verdict);

}  // namespace tenth::paper
