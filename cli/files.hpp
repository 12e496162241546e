#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "rules/result.hpp"

namespace tenth::cli {

/// A whole file that the caller named, at most `most` bytes. Refused (4) where it cannot be read.
Result<std::string> read_text(const std::string& path, std::size_t most);

/// Written beside, synced, renamed: the file is the old one or the new one, never half of it.
Result<bool> write_text(const std::string& path, std::string_view text);

}  // namespace tenth::cli
