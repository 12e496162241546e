#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "drivers/decoder.hpp"
#include "schema/profile/profile.hpp"

namespace tenth::drivers {

/// How bytes travel: it decides how Modbus frames its messages.
enum class Wire { serial, network };

/// The decoder of a profile's format. `unit` is the gauge's (`gauge add --unit`), for frames that name none where the
/// profile has none either.
std::unique_ptr<Decoder> make_decoder(const Profile& profile, std::optional<Unit> unit, Wire wire);

/// A frame's length, or what it answers, shows that its beginning was seen.
bool whole_by_length(const Profile& profile);

/// A profile that Tenth ships (drivers/profiles/NAME.toml).
struct ShippedProfile {
  std::string_view name, text;
};

/// All of them, by name. `find_shipped` gives nullptr for an unknown name.
std::span<const ShippedProfile> shipped_profiles();
const ShippedProfile* find_shipped(std::string_view name);

}  // namespace tenth::drivers
