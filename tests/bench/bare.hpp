#pragma once

#include <sqlite3.h>

#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

#include "tests/support/folder.hpp"

namespace tenth::bench {

inline void must(bool done) {
  if (!done) throw std::runtime_error("the benchmark's machine refused");
}

/// About 900 bytes, as a reading's entry has.
std::string reading_body();

/// The same table and settings, and nothing else.
class Bare {
 public:
  explicit Bare(const std::filesystem::path& file) {
    must(sqlite3_open(file.c_str(), &database_) == SQLITE_OK);
    run("PRAGMA journal_mode = WAL");
    run("PRAGMA synchronous = FULL");
    run("CREATE TABLE entry(seq INTEGER PRIMARY KEY, body TEXT NOT NULL, hash BLOB NOT NULL)");
    const char* insert = "INSERT INTO entry(seq, body, hash) VALUES(?, ?, ?)";
    must(sqlite3_prepare_v2(database_, insert, -1, &insert_, nullptr) == SQLITE_OK);
  }
  ~Bare() {
    sqlite3_finalize(insert_);
    sqlite3_close(database_);
  }
  Bare(const Bare&) = delete;
  Bare& operator=(const Bare&) = delete;

  void append(const std::vector<std::string>& bodies) {
    if (bodies.size() > 1) run("BEGIN IMMEDIATE");
    for (const std::string& body : bodies) {
      sqlite3_bind_int64(insert_, 1, ++seq_);
      sqlite3_bind_text(insert_, 2, body.data(), static_cast<int>(body.size()), nullptr);
      sqlite3_bind_blob(insert_, 3, body.data(), 32, nullptr);
      must(sqlite3_step(insert_) == SQLITE_DONE);
      sqlite3_reset(insert_);
    }
    if (bodies.size() > 1) run("COMMIT");
  }

 private:
  void run(const char* statement) { must(sqlite3_exec(database_, statement, nullptr, nullptr, nullptr) == SQLITE_OK); }

  sqlite3* database_ = nullptr;
  sqlite3_stmt* insert_ = nullptr;
  std::int64_t seq_ = 0;
};

}  // namespace tenth::bench
