#include "schema/store/connection.hpp"

#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Transaction.h>

#include <algorithm>
#include <utility>

#include "schema/store/format.hpp"

namespace tenth {
namespace {

constexpr auto kSelect = "SELECT seq, body, hash FROM entry WHERE seq >= ? ORDER BY seq LIMIT ?";
constexpr auto kInsert = "INSERT INTO entry(seq, body, hash) VALUES(?, ?, ?)";

/// What is no text or no 32 bytes was not written by us: it is read as nothing, which no chain agrees with.
Row row_of(SQLite::Statement& select) {
  Row row;
  row.seq = select.getColumn(0).getInt64();
  if (const SQLite::Column body = select.getColumn(1); body.isText()) row.body = body.getString();
  const SQLite::Column hash = select.getColumn(2);
  if (hash.isBlob() && hash.getBytes() == static_cast<int>(row.hash.size())) {
    const auto* bytes = static_cast<const std::uint8_t*>(hash.getBlob());
    std::copy_n(bytes, row.hash.size(), row.hash.begin());
  }
  return row;
}

Head last_of(SQLite::Database& database) {
  SQLite::Statement last(database, "SELECT seq, body, hash FROM entry ORDER BY seq DESC LIMIT 1");
  if (!last.executeStep()) return {};
  const Row row = row_of(last);
  return {row.seq, row.hash};
}

}  // namespace

Ledger::Connection::Connection(SQLite::Database opened, std::optional<WriterLock> right)
    : lock(std::move(right)), database(std::move(opened)), select(database, kSelect), head(last_of(database)) {
  if (lock) insert.emplace(database, kInsert);
}

Ledger::Connection::~Connection() {
  if (lock) database.tryExec("PRAGMA wal_checkpoint(PASSIVE)");
}

std::vector<Row> Ledger::Connection::rows(std::int64_t from, std::size_t most) {
  select.tryReset();  // what an earlier failure left
  select.bind(1, from);
  select.bind(2, static_cast<std::int64_t>(most));
  std::vector<Row> found;
  while (select.executeStep()) found.push_back(row_of(select));
  select.reset();  // ends the read: an open one would keep the log from being written back
  return found;
}

std::optional<std::size_t> Ledger::Connection::found(std::span<const Digest> hashes) {
  const std::vector<Row> after = rows(head.seq + 1, hashes.size() + 1);
  const bool ours =
      after.size() <= hashes.size() && std::equal(after.begin(), after.end(), hashes.begin(),
                                                  [](const Row& row, const Digest& hash) { return row.hash == hash; });
  return ours ? std::optional(after.size()) : std::nullopt;
}

bool Ledger::Connection::has_all(std::span<const Digest> hashes) noexcept {
  try {
    return found(hashes) == hashes.size();
  } catch (const SQLite::Exception&) {
    return false;  // not known
  }
}

void Ledger::Connection::write(std::span<const std::string> bodies, std::span<const Digest> hashes) {
  // Where others stand, begin at 0: the database then refuses the seq that is taken.
  const std::size_t there = unsure ? found(hashes).value_or(0) : 0;
  SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
  if (!guarded) restore_guards(database);
  for (std::size_t i = there; i < bodies.size(); ++i) {
    insert->tryReset();
    insert->bind(1, head.seq + 1 + static_cast<std::int64_t>(i));
    insert->bindNoCopy(2, bodies[i]);
    insert->bind(3, hashes[i].data(), static_cast<int>(hashes[i].size()));
    insert->exec();
  }
  insert->tryReset();
  unsure = true;  // what fails before this has left nothing
  transaction.commit();
  guarded = true;
}

}  // namespace tenth
