#pragma once

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <filesystem>
#include <string>
#include <vector>

#include "schema/store/audit.hpp"
#include "tests/support/folder.hpp"

namespace tenth {

/// A folder for a ledger; in memory where the system has such a place, as these tests make hundreds of ledgers and
/// none asks whether the disk kept what it said it did (see `faulty_vfs.hpp` for that).
class LedgerFolder : public Folder {
 public:
  LedgerFolder()
      : Folder(std::filesystem::is_directory("/dev/shm") ? "/dev/shm" : std::filesystem::temp_directory_path()) {}
  std::filesystem::path ledger() const { return *this / "ledger.db"; }
};

/// Another program's connection: SQLite's C interface, no code of ours.
class Outsider {
 public:
  explicit Outsider(const std::filesystem::path& file, const char* vfs = nullptr) {
    const int opened = sqlite3_open_v2(file.c_str(), &database_, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, vfs);
    EXPECT_EQ(opened, SQLITE_OK) << file;
  }
  ~Outsider() { sqlite3_close(database_); }
  Outsider(const Outsider&) = delete;
  Outsider& operator=(const Outsider&) = delete;

  /// Runs the statements; what SQLite had against them, empty where nothing.
  std::string run(const std::string& statements) {
    char* error = nullptr;
    sqlite3_exec(database_, statements.c_str(), nullptr, nullptr, &error);
    const std::string text = error != nullptr ? error : "";
    sqlite3_free(error);
    return text;
  }

  /// The first value that the query gives, as text.
  std::string ask(const std::string& query) {
    std::string answer;
    const auto first = [](void* into, int, char** values, char**) {
      *static_cast<std::string*>(into) = values[0] != nullptr ? values[0] : "NULL";
      return 0;
    };
    EXPECT_EQ(sqlite3_exec(database_, query.c_str(), first, &answer, nullptr), SQLITE_OK) << sqlite3_errmsg(database_);
    return answer;
  }

 private:
  sqlite3* database_ = nullptr;
};

/// The canonical body of the n-th entry of a test.
inline std::string body_of(int n) {
  return R"({"kind":"note","n":)" + std::to_string(n) + R"(,"time":"2026-01-02T03:04:05.000006Z"})";
}

inline std::vector<std::string> bodies_of(int first, int last) {
  std::vector<std::string> bodies;
  for (int n = first; n <= last; ++n) bodies.push_back(body_of(n));
  return bodies;
}

/// The ledger, or a failed test with what was refused.
inline Ledger opened(Result<Ledger> ledger) {
  EXPECT_TRUE(ledger) << ledger.error().message;
  return std::move(ledger.value());
}

/// Makes a ledger of the entries 1 to `last` and closes it.
inline void make_ledger(const std::filesystem::path& file, int last) {
  Ledger ledger = opened(Ledger::open(file));
  EXPECT_TRUE(ledger.append(bodies_of(1, last)));
}

template <class T>
std::string code_of(const Result<T>& result) {
  return result ? "done" : result.error().code;
}

}  // namespace tenth
