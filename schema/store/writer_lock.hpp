#pragma once

#include <filesystem>

#include "rules/result.hpp"

namespace tenth {

/// The right to write one ledger, held by an advisory lock on `FILE-lock`: SQLite itself would let two programs take
/// turns. (Not on the ledger's own file: closing any descriptor of that drops the locks that SQLite holds on it.)
/// The system gives the lock back when the process ends, however it ends.
class WriterLock {
 public:
  /// Refused with code `ledger_locked` where another holds it, `ledger_read_only` where the lock file cannot be made.
  static Result<WriterLock> take(const std::filesystem::path& ledger_file);

  WriterLock(WriterLock&& other) noexcept;
  WriterLock& operator=(WriterLock&&) = delete;
  ~WriterLock();

 private:
  explicit WriterLock(int descriptor) : descriptor_(descriptor) {}
  int descriptor_;
};

}  // namespace tenth
