// The ledger's file read with the sqlite3 program, its chain made again with sha256sum: nothing of the project's own.
#pragma once

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "tests/end_to_end/process.hpp"

namespace acceptance {

struct Entry {
  long long seq = 0;
  std::string body;
  std::string hash;  // hex, lower case
  nlohmann::json json() const { return nlohmann::json::parse(body); }
};

// Runs SQL on the file, read-only unless said otherwise.
Ran sql(const std::filesystem::path& file, const std::string& statement, bool writing = false);
// The rows that the condition holds for, in order of seq.
std::vector<Entry> entries(const std::filesystem::path& file, const std::string& where = "1");
std::vector<Entry> entries_of_kind(const std::filesystem::path& file, const std::string& kind);
// A copy as a whole file without its side files.
void copy_ledger(const std::filesystem::path& from, const std::filesystem::path& to);
// Lets the copy be tampered with: drops every trigger.
void drop_triggers(const std::filesystem::path& file);

std::string sha256_hex(std::string_view bytes);
std::string from_hex(std::string_view hex);
// SHA-256 over the hash before (hex) and this digest (hex).
std::string link_hex(std::string_view before, std::string_view digest);
inline const std::string no_hash = std::string(64, '0');

}  // namespace acceptance
