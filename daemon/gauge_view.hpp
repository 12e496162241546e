#pragma once

#include "daemon/view.hpp"
#include "schema/json/json.hpp"

namespace tenth {

/// A gauge as `gauge list` shows it (`schema/wire.md`).
Json gauge_json(const View& view, const Gauge& gauge);
/// A master as `masters list` shows it.
Json master_json(const View& view, const Master& master);
/// What a setting was made on beside the size: `master` and `in`, null where neither.
Json used_json(const MasterUsed& used);
/// A gauge as `status` shows it.
Json gauge_status_json(const View& view, const Gauge& gauge);
/// A standing as the `place` event shows it; `gauge` empty is the common one.
Json place_event(const Bench& bench, const std::optional<std::string>& gauge);

}  // namespace tenth
