#include "schema/store/format.hpp"

#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Transaction.h>

#include <string>

namespace tenth {
namespace {

constexpr int kApplicationId = 0x54'4E'54'48;  // "TNTH", as file(1) and SQLite see it

constexpr auto kTable = "CREATE TABLE entry(seq INTEGER PRIMARY KEY, body TEXT NOT NULL, hash BLOB NOT NULL)";

// The last guard is what stops INSERT OR REPLACE, which fires no delete trigger. Before an insert without a seq, SQLite
// shows NEW.seq as -1: refused too.
constexpr auto kGuards = R"(
CREATE TRIGGER IF NOT EXISTS entry_stays BEFORE UPDATE ON entry
BEGIN SELECT RAISE(ABORT, 'an entry is never changed'); END;
CREATE TRIGGER IF NOT EXISTS entry_remains BEFORE DELETE ON entry
BEGIN SELECT RAISE(ABORT, 'an entry is never removed'); END;
CREATE TRIGGER IF NOT EXISTS entry_follows BEFORE INSERT ON entry
WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM entry)
BEGIN SELECT RAISE(ABORT, 'an entry has the seq after the last'); END;
)";

int number(SQLite::Database& database, const char* query) {
  return database.execAndGet(query).getInt();
}

void set(SQLite::Database& database, const std::string& pragma, int value) {
  database.exec("PRAGMA " + pragma + " = " + std::to_string(value));
}

bool has_table(SQLite::Database& database) {
  return number(database,
                "SELECT count(*) FROM sqlite_schema WHERE name = 'entry' AND type = 'table' AND "
                "(SELECT group_concat(name) FROM pragma_table_info('entry')) = 'seq,body,hash'") == 1;
}

}  // namespace

bool is_blank(SQLite::Database& database) {
  return number(database, "SELECT count(*) FROM sqlite_schema") == 0 && number(database, "PRAGMA user_version") == 0 &&
         number(database, "PRAGMA application_id") == 0;
}

void lay_out(SQLite::Database& database) {
  SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
  database.exec(kTable);
  database.exec(kGuards);
  set(database, "application_id", kApplicationId);
  set(database, "user_version", kLedgerVersion);
  transaction.commit();
}

void restore_guards(SQLite::Database& database) {
  database.exec(kGuards);
}

std::optional<Refusal> format_refusal(SQLite::Database& database, const std::filesystem::path& file) {
  const int version = number(database, "PRAGMA user_version");
  const int application = number(database, "PRAGMA application_id");
  const bool ours = application == kApplicationId || application == 0;  // 0: rebuilt by hand, from a dump say
  if (ours && version > kLedgerVersion) {
    return Refusal{Exit::refused, "ledger_newer",
                   file.string() + ": its format is " + std::to_string(version) + ", this program knows up to " +
                       std::to_string(kLedgerVersion),
                   "use a newer tenth; this one has changed nothing"};
  }
  if (!ours || !has_table(database)) {
    return Refusal{Exit::refused, "ledger_unreadable", file.string() + ": this database is no ledger",
                   "name another file, or move this one away to begin a new ledger"};
  }
  return std::nullopt;
}

}  // namespace tenth
