#pragma once

#include <SQLiteCpp/Database.h>

#include <filesystem>
#include <optional>

#include "rules/result.hpp"

namespace tenth {

/// The database's side of the format that `schema/ledger.md` describes: the one table and the triggers that guard it.
/// All throw SQLite::Exception.
inline constexpr int kLedgerVersion = 1;

/// True for a database with nothing in it, such as a file of no bytes.
bool is_blank(SQLite::Database& database);

/// Makes the table and its triggers in one transaction.
void lay_out(SQLite::Database& database);

/// Puts back the triggers that are missing; an existing ledger that is only looked at stays as it is.
void restore_guards(SQLite::Database& database);

/// What speaks against taking this database for a ledger: a later format, another program's file, no such table.
std::optional<Refusal> format_refusal(SQLite::Database& database, const std::filesystem::path& file);

}  // namespace tenth
