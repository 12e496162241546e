#pragma once

#include <span>

#include "daemon/acts/intake.hpp"

namespace tenth {

/// The frame of a rocked gauge: its turning point, found in the values shown, of which there is one or more.
Frame turned_frame(const std::string& gauge, std::span<const LiveValue> shown, const stream::Turning& turning);

/// The values as the stream's rules take them.
std::vector<stream::Sample> samples_of(std::span<const LiveValue> shown);

/// A tenth of what the last place of the gauge's numbers counts in.
Length turning_step(const LiveValue& value);

}  // namespace tenth
