#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "daemon/clock.hpp"
#include "daemon/draft.hpp"
#include "schema/store/ledger.hpp"

namespace tenth {

/// The state directory, held for this process alone while it lives.
class StateLock {
 public:
  /// Makes the directory (0700) where it is absent. Refused (4, `state_locked`) while another tenthd holds it.
  static Result<StateLock> take(const std::filesystem::path& state);
  StateLock(StateLock&& other) noexcept;
  StateLock& operator=(StateLock&&) = delete;
  ~StateLock();

 private:
  explicit StateLock(int descriptor) : descriptor_(descriptor) {}
  int descriptor_ = -1;
};

/// A ledger that was verified from its first row, and the state that its entries give.
struct Opened {
  Ledger ledger;
  Bench bench;
  std::string head_hash;
};

/// Opens `ledger.db` and verifies it whole; a new one gets its first row. A false one is refused with exit status 1 and
/// left untouched. With `anew` the present file is put aside and the new one's first row names its head.
Result<Opened> open_ledger(const std::filesystem::path& state, bool anew, const Clock& clock, const Actor& self);

}  // namespace tenth
