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

tl::unexpected<Refusal> not_stored(const SQLite::Exception& failure) {
  const bool foreign = (failure.getErrorCode() & 0xFF) == SQLITE_CONSTRAINT;
  return refuse("not_stored", std::string("the ledger took no entry: ") + failure.what(),
                foreign ? "another program has written to it: stop tenthd, audit the ledger, start again"
                        : "make room on its disk, or see what else is wrong with it");
}

}  // namespace

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
  try {
    connection_->write(bodies, hashes);
  } catch (const SQLite::Exception& failure) {
    connection_->unsure = true;
    if (!connection_->has_all(hashes)) return not_stored(failure);
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
