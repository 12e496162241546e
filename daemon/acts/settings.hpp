#pragma once

#include "daemon/acts/intake.hpp"
#include "rules/result.hpp"

namespace tenth {

/// The frame that a gauge showed on its master: sets its zero or checks it, and says what that means for the readings
/// since the last good check. A frame that cannot be trusted is refused aloud and the waiting goes on. Returns the
/// seq of the setting, 0 where there is none.
std::int64_t take_setting(Draft& draft, const Gauge& gauge, const Awaited& awaited, const Frame& frame,
                          bool unit_differs);

/// In a turn of a study of masters: what is shown cannot be of the turn's master.
bool is_far_off(const Awaited& awaited, Length shown);

/// What a command is answered whose frame gave this setting, or else a turn of this study of masters.
Json on_master_answer(const Bench& bench, std::int64_t seq, const std::string& study);

/// The reading that another gauge is clamped at: its last one, kept, with a size, not older than a setting may be, and
/// not followed by its own master. Refused (4) where there is none such.
Result<const Reading*> clamped_at(const Draft& draft, const Gauge& other);

/// Writes what a gauge is set on, beside the size, into a body; `master_used` reads it.
void put_used(Json& body, const MasterUsed& used);

/// A setting or check was wrong: it counts no more, every reading that rests on it is in doubt, and what it closed is
/// open again.
void void_setting(Draft& draft, const Setting& setting, const std::string& reason);

}  // namespace tenth
