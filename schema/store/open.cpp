#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Exception.h>
#include <fcntl.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cerrno>
#include <string>
#include <system_error>
#include <utility>

#include "schema/store/connection.hpp"
#include "schema/store/format.hpp"
#include "schema/store/ledger.hpp"

namespace tenth {
namespace {

namespace fs = std::filesystem;

constexpr int kBusyMs = 250;  // a reader or an outside tool holds its locks for milliseconds

/// `file` with a suffix of SQLite's companions: "-wal", "-shm".
fs::path beside(const fs::path& file, const char* suffix) {
  return file.string() + suffix;
}

tl::unexpected<Refusal> unreadable(const fs::path& file, const std::string& why) {
  return refuse("ledger_unreadable", file.string() + ": " + why, "restore it from a copy; keep the damaged file");
}

tl::unexpected<Refusal> read_only(const fs::path& path) {
  return refuse("ledger_read_only", path.string() + ": it is read-only",
                "make the ledger and its folder writable for the user that runs tenthd");
}

/// What SQLite said when a ledger was opened.
tl::unexpected<Refusal> refusal_of(const SQLite::Exception& failure, const fs::path& file) {
  switch (failure.getErrorCode() & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return refuse("ledger_locked", file.string() + ": another program has locked it", "stop that program first");
    case SQLITE_READONLY:
      return read_only(file);
    default:
      return unreadable(file, failure.what());
  }
}

/// Nobody's to write, even where the caller is root, or not the caller's.
bool is_read_only(const fs::path& path) {
  using fs::perms;
  const perms any_write = perms::owner_write | perms::group_write | perms::others_write;
  std::error_code error;
  return (fs::status(path, error).permissions() & any_write) == perms::none || ::access(path.c_str(), W_OK) != 0;
}

/// What speaks against writing to the file before it is opened.
std::optional<Refusal> write_refusal(const fs::path& file) {
  std::error_code error;
  const fs::path folder = file.parent_path();
  if (!fs::is_directory(folder, error)) return unreadable(file, "its folder does not exist").value();
  if (is_read_only(folder)) return read_only(folder).value();
  if (!fs::exists(file, error)) return std::nullopt;
  if (!fs::is_regular_file(file, error)) return unreadable(file, "it is no file").value();
  if (is_read_only(file)) return read_only(file).value();
  return std::nullopt;
}

/// Makes the file where it is absent; for its owner alone, and so what SQLite makes beside it.
void own_alone(const fs::path& file) {
  const int made = ::open(file.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (made >= 0) ::close(made);
  std::error_code not_ours;  // then it is the owner's to say
  for (const fs::path& path : {file, beside(file, "-wal"), beside(file, "-shm")}) {
    fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write, not_ours);
  }
}

/// What is stored survives a power cut: each commit is in the log and the log on the disk before it returns.
bool set_durable(SQLite::Database& database) {
  const std::string journal = database.execAndGet("PRAGMA journal_mode = WAL").getString();
  database.exec("PRAGMA synchronous = FULL");
  return journal == "wal" && database.execAndGet("PRAGMA synchronous").getInt() == 2;
}

/// A WAL database in a folder that nobody may write to, with nothing in its log, can only be read as one that stays.
bool needs_immutable(const SQLite::Exception& failure, const fs::path& file) {
  std::error_code none;
  const auto log_bytes = fs::file_size(beside(file, "-wal"), none);
  return (failure.getErrorCode() & 0xFF) == SQLITE_CANTOPEN && (none || log_bytes == 0);
}

std::string immutable_uri(const fs::path& file) {
  std::string uri = "file:";
  for (const char c : file.string()) {
    if (c == '%')
      uri += "%25";
    else if (c == '?')
      uri += "%3f";
    else if (c == '#')
      uri += "%23";
    else
      uri += c;
  }
  return uri + "?immutable=1";
}

SQLite::Database open_for_reading(const fs::path& file) {
  try {
    SQLite::Database database(file.string(), SQLite::OPEN_READONLY, kBusyMs);
    database.execAndGet("SELECT count(*) FROM sqlite_schema");  // the first read opens the log
    return database;
  } catch (const SQLite::Exception& failure) {
    if (!needs_immutable(failure, file)) throw;
    return {immutable_uri(file), SQLite::OPEN_READONLY | SQLite::OPEN_URI, kBusyMs};
  }
}

}  // namespace

Result<Ledger> Ledger::open(const fs::path& named) {
  const fs::path file = fs::absolute(named);
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
    if (blank) lay_out(database);
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
  if (!fs::is_regular_file(file, error)) return unreadable(file, "it is no file");
  try {
    SQLite::Database database = open_for_reading(file);
    if (auto refusal = format_refusal(database, file)) return tl::unexpected(std::move(*refusal));
    return Ledger(std::make_unique<Connection>(std::move(database), std::nullopt));
  } catch (const SQLite::Exception& failure) {
    return refusal_of(failure, file);
  }
}

}  // namespace tenth
