#pragma once

#include "daemon/acts/intake.hpp"

namespace tenth {

/// The frame that a gauge showed on its master: sets its zero or checks it, and says what that means for the readings
/// since the last good check. A frame that cannot be trusted is refused aloud and the waiting goes on. Returns the
/// seq of the setting, 0 where there is none.
std::int64_t take_setting(Draft& draft, const Gauge& gauge, const Awaited& awaited, const Frame& frame, bool unit_differs);

/// A setting or check was wrong: it counts no more, every reading that rests on it is in doubt, and what it closed is
/// open again.
void void_setting(Draft& draft, const Setting& setting, const std::string& reason);

}  // namespace tenth
