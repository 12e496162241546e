#pragma once

#include <sqlite3.h>

#include <filesystem>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace tenth {

/// A disk that refuses, and whose power can be cut: a file layer for SQLite over the usual one, the default while it
/// lives. It counts the calls that open, read, write, truncate, sync or remove, and fails the one it is told to.
class FaultyDisk {
 public:
  FaultyDisk();
  ~FaultyDisk();
  FaultyDisk(const FaultyDisk&) = delete;
  FaultyDisk& operator=(const FaultyDisk&) = delete;

  /// The n-th call from now on fails with SQLite's `code`, and with `for_ever` every one after it.
  void fail_at(int n, int code, bool for_ever);
  void fail_syncs() { syncs_fail_ = true; }
  void heal() { fail_at_ = 0, syncs_fail_ = false; }
  /// A call has failed since the last `fail_at`.
  bool has_failed() const { return failed_; }

  /// Lays into `folder` what the disk holds if the power goes now: all that was synced, and of each write since then
  /// nothing, all of it, or some first sectors.
  void cut_power(const std::filesystem::path& folder, std::mt19937& chance) const;

  /// A write, or where `cut` a new size, that was not synced yet.
  struct Change {
    std::size_t offset = 0;
    std::string bytes;
    bool cut = false;
  };
  struct Medium {
    std::string synced;
    std::vector<Change> since;
  };

  /// For the callbacks of SQLite.
  int strike();
  bool syncs_fail() const { return syncs_fail_; }
  Medium& medium(const char* name);
  void forget(const char* name) { media_.erase(name); }
  sqlite3_vfs* base() const { return base_; }

 private:
  sqlite3_vfs* base_;
  sqlite3_vfs vfs_;
  std::map<std::string, Medium> media_;
  int calls_ = 0, fail_at_ = 0, code_ = SQLITE_OK;
  bool for_ever_ = false, failed_ = false, syncs_fail_ = false;
};

}  // namespace tenth
