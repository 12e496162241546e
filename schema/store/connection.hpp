#pragma once

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "schema/store/ledger.hpp"
#include "schema/store/writer_lock.hpp"

namespace tenth {

/// One open ledger. Its functions throw SQLite::Exception; only `Ledger` calls them.
struct Ledger::Connection {
  /// For reading where `right` is empty.
  Connection(SQLite::Database opened, std::optional<WriterLock> right);
  /// A writer leaves all rows in the main file, as far as readers let it.
  ~Connection();

  std::vector<Row> rows(std::int64_t from, std::size_t most);

  /// The bodies as the rows after `head`, without those that are there already.
  void write(std::span<const std::string> bodies, std::span<const Digest> hashes);

  /// How many of these rows, which were to follow `head`, are there. Empty where others stand in their place.
  std::optional<std::size_t> found(std::span<const Digest> hashes);
  /// True where all of them are known to be there; does not throw.
  bool has_all(std::span<const Digest> hashes) noexcept;

  std::optional<WriterLock> lock;  ///< outlives the database below
  SQLite::Database database;
  SQLite::Statement select;
  std::optional<SQLite::Statement> insert;
  Head head;
  bool guarded = false;  ///< the triggers were seen to
  bool unsure = false;   ///< a commit failed: what it meant to store may be there all the same
};

}  // namespace tenth
