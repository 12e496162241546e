#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "rules/result.hpp"
#include "schema/store/hash.hpp"

namespace tenth {

struct Row {
  std::int64_t seq = 0;
  std::string body;  ///< canonical JSON
  Digest hash{};
};

struct Head {
  std::int64_t seq = 0;
  Digest hash{};
};
/// SEQ:HEX, as paper bears it and `tenth audit --head` takes it.
std::string printed(const Head& head);

/// The append-only chain of entries in `ledger.db` (format: `schema/ledger.md`). One object, one connection, one
/// thread.
class Ledger {
 public:
  /// Opens or creates the file (mode 0600) for writing: WAL, `synchronous=FULL`, read back. Refused with code
  /// `ledger_locked`, `ledger_read_only`, `ledger_newer` (a later format), `ledger_unreadable` (no ledger, damaged
  /// file). The chain itself is not verified here (see `schema/store/audit.hpp`), and an existing ledger's content is
  /// not touched before the first `append`.
  static Result<Ledger> open(const std::filesystem::path& file);
  /// For reading only, beside a running daemon. The same refusals, and `ledger_absent`.
  static Result<Ledger> open_read_only(const std::filesystem::path& file);

  Ledger(Ledger&&) noexcept;
  Ledger& operator=(Ledger&&) noexcept;
  ~Ledger();

  /// The last row: of a writer as it stands, of a reader as it stood when opened.
  const Head& head() const;

  /// Appends the bodies in one transaction and returns their rows' hashes once the disk has them; all or nothing.
  /// Refused with code `not_stored` (disk full, locked, an error before the commit): nothing of them is there or will
  /// be. Refused with `not_known` where the commit itself met an I/O error, such as a sync that failed: the rows may be
  /// on the disk, and a start after a crash may find them. Then the next call begins with the same bodies (more may
  /// follow) until one succeeds, and each is stored once. The head is as before. Bodies are canonical JSON; the ledger
  /// was opened for writing.
  Result<std::vector<Digest>> append(std::span<const std::string> bodies);

  /// Rows `from` .. , at most `most`, in order. Refused with code `ledger_unreadable`.
  Result<std::vector<Row>> rows(std::int64_t from, std::size_t most) const;

 private:
  struct Connection;
  explicit Ledger(std::unique_ptr<Connection> connection);
  std::unique_ptr<Connection> connection_;
};

}  // namespace tenth
