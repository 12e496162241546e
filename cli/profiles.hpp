#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/context.hpp"

namespace tenth::cli {

/// A profile file of the caller's, or of the system.
struct ProfileFile {
  std::string name, path;
  std::string text = {};  ///< where it was read
};

/// The files NAME.toml in the user's and the system's profile folder; the user's hides one of the same name.
std::vector<ProfileFile> profile_files(const World& world);

/// The same with their texts; one that cannot be read is left out, and told on the error stream.
std::vector<ProfileFile> readable_profiles(World& world);

/// PROFILE as `gauge add` takes it: a file where it holds a slash or ends in `.toml`, else a file of that name in the
/// profile folders. Its whole text; empty where none is meant and the daemon's own is.
Result<std::optional<std::string>> profile_text(const World& world, const std::string& profile);

}  // namespace tenth::cli
