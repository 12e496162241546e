#pragma once

#include <optional>
#include <string>
#include <vector>

#include "daemon/draft.hpp"

namespace tenth {

/// Appends the choice of a place, which ends a round.
std::int64_t choose_place(Draft& draft, const std::optional<std::string>& gauge, const std::string& engine,
                          const Place& place);

/// Appends that there is no place any more.
void leave_place(Draft& draft, const std::optional<std::string>& gauge);

/// Appends where the round of this gauge (or the common one) stands now; past the last place there is none.
void stand_in_round(Draft& draft, const std::optional<std::string>& gauge, std::size_t at);

/// All that the spec asks for at this place in its present stage is there: readings, or an answer.
bool satisfied(const Engine& engine, const Place& place);

/// The position of the round's next place after `from` that still wants something; the number of places if none does.
std::size_t next_open(const Engine& engine, const Round& round, std::size_t from);

/// Moves the round on if it stands at this place and the place has all that it wants.
void advance(Draft& draft, const std::optional<std::string>& gauge, const std::string& engine, const Place& place);

/// The standing that a gauge uses: its own where it has one, else the common one (empty).
std::optional<std::string> own_or_common(const Bench& bench, const std::optional<std::string>& gauge);

/// Ends the waiting for a master of the gauges that this standing serves; returns their names.
std::vector<std::string> end_waiting(Draft& draft, const std::optional<std::string>& gauge, const std::string& why);

}  // namespace tenth
