#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Transaction.h>
#include <sqlite3.h>

#include <string>
#include <system_error>
#include <utility>

#include "schema/store/connection.hpp"
#include "schema/store/format.hpp"
#include "schema/store/ledger.hpp"
#include "schema/store/ledger_file.hpp"

namespace tenth {
namespace {

namespace fs = std::filesystem;

constexpr int kBusyMs = 250;  // a reader or an outside tool holds its locks for milliseconds

int primary_code(const SQLite::Exception& failure) {
  return failure.getErrorCode() & 0xFF;
}

/// What SQLite said when a ledger was opened.
tl::unexpected<Refusal> refusal_of(const SQLite::Exception& failure, const fs::path& file) {
  switch (primary_code(failure)) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return refuse("ledger_locked", file.string() + ": another program has locked it", "stop that program first");
    case SQLITE_READONLY:
      return read_only(file);
    default:
      return unreadable(file, failure.what());
  }
}

/// What is stored survives a power cut: each commit is in the log and the log on the disk before it returns.
bool set_durable(SQLite::Database& database) {
  const std::string journal = database.execAndGet("PRAGMA journal_mode = WAL").getString();
  database.exec("PRAGMA synchronous = FULL");
  return journal == "wal" && database.execAndGet("PRAGMA synchronous").getInt() == 2;
}

/// Throws where another program is in the middle of writing.
void touch_write_lock(SQLite::Database& database) {
  const SQLite::Transaction rolled_back(database, SQLite::TransactionBehavior::IMMEDIATE);
}

std::string immutable_uri(const fs::path& file) {
  std::string uri = "file:";
  for (const char c : file.string()) {
    switch (c) {
      case '%':
        uri += "%25";
        break;
      case '?':
        uri += "%3f";
        break;
      case '#':
        uri += "%23";
        break;
      default:
        uri += c;
    }
  }
  return uri + "?immutable=1";
}

/// In a folder that the caller may not write to, SQLite reads a WAL database only where it is told that it stays as it
/// is.
SQLite::Database open_for_reading(const fs::path& file) {
  try {
    SQLite::Database database(file.string(), SQLite::OPEN_READONLY, kBusyMs);
    database.execAndGet("SELECT count(*) FROM sqlite_schema");  // the first read opens the log
    return database;
  } catch (const SQLite::Exception& failure) {
    const bool closed_folder = primary_code(failure) == SQLITE_CANTOPEN || primary_code(failure) == SQLITE_READONLY;
    if (!closed_folder || !stands_alone(file)) throw;
  }
  return {immutable_uri(file), SQLite::OPEN_READONLY | SQLite::OPEN_URI, kBusyMs};
}

}  // namespace

Result<Ledger> Ledger::open(const fs::path& named) {
  const fs::path file = fs::absolute(named);  // which SQLite cannot take for anything but a path
  if (auto refusal = write_refusal(file)) return tl::unexpected(std::move(*refusal));
  auto lock = WriterLock::take(file);
  if (!lock) return tl::unexpected(std::move(lock.error()));
  own_alone(file);
  try {
    SQLite::Database database(file.string(), SQLite::OPEN_READWRITE, kBusyMs);
    const bool blank = is_blank(database);
    if (!blank) {
      if (auto refusal = format_refusal(database, file)) return tl::unexpected(std::move(*refusal));
    }
    if (!set_durable(database)) return unreadable(file, "its disk cannot keep a write-ahead log");
    blank ? lay_out(database) : touch_write_lock(database);
    return Ledger(std::make_unique<Connection>(std::move(database), std::move(*lock)));
  } catch (const SQLite::Exception& failure) {
    return refusal_of(failure, file);
  }
}

Result<Ledger> Ledger::open_read_only(const fs::path& named) {
  const fs::path file = fs::absolute(named);
  std::error_code error;
  if (!fs::exists(file, error)) {
    return refuse("ledger_absent", file.string() + ": there is no such file",
                  "name the ledger.db of a state directory");
  }
  if (auto refusal = read_refusal(file)) return tl::unexpected(std::move(*refusal));
  try {
    SQLite::Database database = open_for_reading(file);
    if (auto refusal = format_refusal(database, file)) return tl::unexpected(std::move(*refusal));
    return Ledger(std::make_unique<Connection>(std::move(database), std::nullopt));
  } catch (const SQLite::Exception& failure) {
    return refusal_of(failure, file);
  }
}

}  // namespace tenth
