// What the chain, the guards and the store thread cost beside a bare insert through SQLite's own interface: the same
// body, the same settings, the same disk (TMPDIR), taken in turns in one run.
#include <sqlite3.h>

#include <boost/asio/io_context.hpp>
#include <cstdlib>
#include <filesystem>
#include <stdexcept>

#include "schema/json/json.hpp"
#include "schema/store/store_thread.hpp"
#include "tests/bench/samples.hpp"

namespace tenth::bench {
namespace {

namespace fs = std::filesystem;

class Folder {
 public:
  Folder() {
    std::string name = (fs::temp_directory_path() / "tenth-bench-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder " + name);
    path_ = name;
  }
  ~Folder() { fs::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  fs::path ledger() const { return path_ / "ledger.db"; }

 private:
  fs::path path_;
};

/// About 900 bytes, as a reading's entry has.
std::string reading_body() {
  Json body = {{"kind", "reading"},
               {"time", "2026-01-02T03:04:05.000006Z"},
               {"mono_ns", 81234567890},
               {"boot", "6f1c1ad3-7f0e-4f53-9a86-0a4f1a6c2b11"},
               {"salt", random_hex(8)},
               {"by", {{"user", "ann"}, {"uid", 1000}, {"via", "gauge"}}},
               {"operator", "ann"},
               {"engine", "job 41"},
               {"feature", "bore"},
               {"index", 3},
               {"level", "top"},
               {"axis", "thrust"},
               {"gauge", "bore gauge"},
               {"raw", "+00.0012 mm"},
               {"text", "+00.0012"},
               {"unit", "mm"},
               {"value_pm", 1'200'000},
               {"size_pm", 101'601'200'000},
               {"state", "kept"},
               {"doubts", Json::array()},
               {"source", "gauge"},
               {"stage", "as found"},
               {"spec", 3},
               {"gauge_entry", 5},
               {"setting", 17},
               {"calibration", nullptr},
               {"place", 41},
               {"stage_entry", nullptr},
               {"temperature", nullptr},
               {"operator_entry", 2},
               {"program", "tenthd 0.1"},
               {"arrived", "2026-01-02T03:04:05.000001Z"},
               {"dropped", 0},
               {"profile", hex(sha256("a profile"))}};
  body["note"] = std::string(900 - canonical(body).size(), 'x');
  return canonical(body);
}

void must(bool done) {
  if (!done) throw std::runtime_error("the benchmark's disk refused");
}

/// The same table and settings, and nothing else.
class Bare {
 public:
  explicit Bare(const fs::path& file) {
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

std::vector<std::string> group(const benchmark::State& state) {
  return std::vector(static_cast<std::size_t>(state.range(0)), reading_body());
}

std::string named(const char* what, const benchmark::State& state) {
  return std::string(what) + "/" + std::to_string(state.range(0));
}

void bare(benchmark::State& state) {
  const Folder folder;
  Bare database(folder.ledger());
  const auto bodies = group(state);
  measure(state, named("bare", state), bodies.size(), [&] { database.append(bodies); });
}

void ledger(benchmark::State& state) {
  const Folder folder;
  Ledger chain = std::move(*Ledger::open(folder.ledger()));
  const auto bodies = group(state);
  measure(state, named("ledger", state), bodies.size(), [&] { must(chain.append(bodies).has_value()); });
}

void store_thread(benchmark::State& state) {
  const Folder folder;
  boost::asio::io_context loop;
  const auto running = boost::asio::make_work_guard(loop);
  StoreThread store(std::move(*Ledger::open(folder.ledger())), loop.get_executor());
  const auto bodies = group(state);
  measure(state, named("store_thread", state), bodies.size(), [&] {
    store.append(bodies, [](const Result<std::vector<Digest>>& stored) { must(stored.has_value()); });
    loop.run_one();
  });
}

BENCHMARK(bare)->Arg(1)->Arg(10)->Arg(100)->UseRealTime();
BENCHMARK(ledger)->Arg(1)->Arg(10)->Arg(100)->UseRealTime();
BENCHMARK(store_thread)->Arg(1)->Arg(10)->Arg(100)->UseRealTime();

}  // namespace
}  // namespace tenth::bench
