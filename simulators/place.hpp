#pragma once

#include <filesystem>

#include "simulators/amount.hpp"

namespace tenth::simulators {

/// Room for a link or a file that a gauge stands under: its folder is made; a link that a killed simulator left behind
/// goes. Refused where anything else is there.
Result<void> make_room(const std::filesystem::path& path);

}  // namespace tenth::simulators
