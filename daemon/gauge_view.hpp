#pragma once

#include "daemon/view.hpp"
#include "schema/json/json.hpp"

namespace tenth {

/// A gauge as `gauge list` shows it (`schema/wire.md`).
Json gauge_json(const View& view, const Gauge& gauge);
/// A gauge as `status` shows it.
Json gauge_status_json(const View& view, const Gauge& gauge);
/// A standing as the `place` event shows it; `gauge` empty is the common one.
Json place_event(const Bench& bench, const std::optional<std::string>& gauge);

}  // namespace tenth
