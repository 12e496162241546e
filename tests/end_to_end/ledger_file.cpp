#include "tests/end_to_end/ledger_file.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>

namespace acceptance {

Ran sql(const std::filesystem::path& file, const std::string& statement, bool writing) {
  Words words{"sqlite3", "-batch", "-bail", "-json", "-cmd", ".timeout 5000"};
  if (!writing) words.push_back("-readonly");
  words.push_back(file);
  return run(words, statement + ";\n");
}

std::vector<Entry> entries(const std::filesystem::path& file, const std::string& where) {
  const Ran ran = sql(file, "SELECT seq, body, lower(hex(hash)) AS hash FROM entry WHERE " + where + " ORDER BY seq");
  EXPECT_EQ(ran.status, 0) << ran.err;
  std::vector<Entry> rows;
  if (ran.out.empty()) return rows;
  for (const nlohmann::json& row : nlohmann::json::parse(ran.out))
    rows.push_back({row["seq"], row["body"], row["hash"]});
  return rows;
}

std::vector<Entry> entries_of_kind(const std::filesystem::path& file, const std::string& kind) {
  return entries(file, "json_extract(body, '$.kind') = '" + kind + "'");
}

void copy_ledger(const std::filesystem::path& from, const std::filesystem::path& to) {
  const Ran ran = sql(from, "VACUUM INTO '" + to.string() + "'");
  ASSERT_EQ(ran.status, 0) << ran.err;
  ASSERT_EQ(sql(to, "PRAGMA journal_mode = DELETE", true).status, 0);
}

void drop_triggers(const std::filesystem::path& file) {
  const Ran names = sql(file, "SELECT name FROM sqlite_master WHERE type = 'trigger'");
  ASSERT_EQ(names.status, 0) << names.err;
  ASSERT_FALSE(names.out.empty()) << "the ledger has no trigger";
  for (const nlohmann::json& row : nlohmann::json::parse(names.out)) {
    ASSERT_EQ(sql(file, "DROP TRIGGER \"" + row["name"].get<std::string>() + "\"", true).status, 0);
  }
}

std::string sha256_hex(std::string_view bytes) {
  return run({"sha256sum", "-b"}, bytes).out.substr(0, 64);
}

std::string from_hex(std::string_view hex) {
  const auto nibble = [](char c) { return std::isdigit(c) != 0 ? c - '0' : std::tolower(c) - 'a' + 10; };
  std::string bytes;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2) {
    bytes += static_cast<char>(nibble(hex[i]) * 16 + nibble(hex[i + 1]));
  }
  return bytes;
}

std::string link_hex(std::string_view before, std::string_view digest) {
  return sha256_hex(from_hex(before) + from_hex(digest));
}

}  // namespace acceptance
