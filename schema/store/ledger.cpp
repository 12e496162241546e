#include "schema/store/ledger.hpp"

#include <SQLiteCpp/Exception.h>
#include <sqlite3.h>

#include <cassert>
#include <utility>

#include "schema/store/connection.hpp"

namespace tenth {
namespace {

std::vector<Digest> hashes_after(const Head& head, std::span<const std::string> bodies) {
  std::vector<Digest> hashes;
  hashes.reserve(bodies.size());
  Digest before = head.hash;
  for (const std::string& body : bodies) hashes.push_back(before = chain(before, sha256(body)));
  return hashes;
}

/// Whether this failure of a commit leaves nothing behind, not even in the log for a later start to find. Where a sync
/// failed all rows may have been written before it.
bool leaves_nothing(const SQLite::Exception& failure) {
  return (failure.getErrorCode() & 0xFF) != SQLITE_IOERR;
}

tl::unexpected<Refusal> not_known(const SQLite::Exception& failure) {
  return refuse("not_known", std::string("whether the ledger has the entries is not known: ") + failure.what(),
                "see what is wrong with its disk");
}

tl::unexpected<Refusal> not_stored(const SQLite::Exception& failure) {
  const bool foreign = (failure.getErrorCode() & 0xFF) == SQLITE_CONSTRAINT;
  return refuse("not_stored", std::string("the ledger took no entry: ") + failure.what(),
                foreign ? "another program has written to it: stop tenthd, audit the ledger, start again"
                        : "make room on its disk, or see what else is wrong with it");
}

}  // namespace

std::string printed(const Head& head) {
  return std::to_string(head.seq) + ":" + hex(head.hash);
}

Ledger::Ledger(std::unique_ptr<Connection> connection) : connection_(std::move(connection)) {}
Ledger::Ledger(Ledger&&) noexcept = default;
Ledger& Ledger::operator=(Ledger&&) noexcept = default;
Ledger::~Ledger() = default;

const Head& Ledger::head() const {
  return connection_->head;
}

Result<std::vector<Digest>> Ledger::append(std::span<const std::string> bodies) {
  assert(connection_->lock && "appending needs a ledger that was opened for writing");
  if (bodies.empty()) return {};
  std::vector<Digest> hashes = hashes_after(connection_->head, bodies);
  const bool was_unsure = connection_->unsure;
  try {
    connection_->write(bodies, hashes);
  } catch (const SQLite::Exception& failure) {
    if (!connection_->has_all(hashes)) {
      if (leaves_nothing(failure)) connection_->unsure = was_unsure;
      if (connection_->unsure) return not_known(failure);
      return not_stored(failure);
    }
  }
  connection_->unsure = false;
  connection_->head = {connection_->head.seq + static_cast<std::int64_t>(bodies.size()), hashes.back()};
  return hashes;
}

Result<std::vector<Row>> Ledger::rows(std::int64_t from, std::size_t most) const {
  try {
    return connection_->rows(from, most);
  } catch (const SQLite::Exception& failure) {
    return refuse("ledger_unreadable",
                  "the ledger cannot be read from row " + std::to_string(from) + " on: " + failure.what(),
                  "restore it from a copy; keep the damaged file");
  }
}

}  // namespace tenth
