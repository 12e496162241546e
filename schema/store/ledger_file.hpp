#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "rules/result.hpp"

namespace tenth {

/// The ledger's file as the file system sees it, before SQLite opens it.

tl::unexpected<Refusal> unreadable(const std::filesystem::path& file, const std::string& why);
tl::unexpected<Refusal> read_only(const std::filesystem::path& path);

/// What speaks against reading a file that is there.
std::optional<Refusal> read_refusal(const std::filesystem::path& file);
/// What speaks against writing the file, or making it.
std::optional<Refusal> write_refusal(const std::filesystem::path& file);

/// Makes the file where it is absent; for its owner alone, and so what SQLite makes beside it.
void own_alone(const std::filesystem::path& file);

/// The write-ahead log beside the file is absent or empty: the file alone is the whole ledger.
bool stands_alone(const std::filesystem::path& file);

}  // namespace tenth
