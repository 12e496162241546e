#pragma once

#include <filesystem>
#include <string>

namespace tenth::drivers {

/// The first line of a file of sysfs; empty where there is none.
std::string first_line(const std::filesystem::path& file);

}  // namespace tenth::drivers
