#include "daemon/opening.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <exception>

#include "schema/ledger/fold.hpp"
#include "schema/store/audit.hpp"

namespace tenth {
namespace {

namespace fs = std::filesystem;

Refusal false_ledger(const fs::path& file, const std::string& why) {
  return {Exit::no, "ledger_false", "the ledger " + file.string() + " is not what its chain says: " + why,
          "keep the file; `tenthd --new-ledger` begins another that names its head"};
}

/// The file that stands there is kept under another name, with its write-ahead log.
Result<std::optional<Head>> put_aside(const fs::path& file) {
  if (!fs::exists(file)) return std::nullopt;
  std::optional<Head> head;
  if (const auto old = Ledger::open_read_only(file)) head = old->head();
  fs::path aside;
  for (int n = 1; aside.empty() || fs::exists(aside); ++n) aside = file.string() + ".old" + std::to_string(n);
  std::error_code error;
  for (const char* part : {"", "-wal", "-shm"})
    if (!error && fs::exists(file.string() + part)) fs::rename(file.string() + part, aside.string() + part, error);
  if (error)
    return refuse("ledger_unreadable", "the ledger " + file.string() + " cannot be put aside: " + error.message(),
                  "move it yourself");
  return head;
}

Json first_body(const std::optional<Head>& old) {
  Json body = {{"id", random_hex(16)}, {"format", 1}, {"program", "tenthd " TENTH_VERSION}, {"previous_head", nullptr}};
  if (old) body["previous_head"] = {{"seq", old->seq}, {"hash", hex(old->hash)}};
  return body;
}

/// Appends entries that an act decided before the desk is there.
Result<void> append_now(Opened& opened, Draft& draft) {
  std::vector<std::string> bodies;
  for (const Entry& entry : draft.take()) bodies.push_back(canonical(entry.body));
  TENTH_TRY(const std::vector<Digest> hashes, opened.ledger.append(bodies));
  opened.head_hash = hex(hashes.back());
  return {};
}

/// Verifies every row and folds it in the same walk, by a connection that only reads: a false ledger is not touched.
Result<std::string> verify(Bench& bench, const Ledger& ledger, const fs::path& file) {
  std::string unfit;
  bool newer = false;
  const auto fold = [&](const Row& row) {
    if (!unfit.empty() || newer) return;
    try {
      const Json body = Json::parse(row.body);
      newer = !is_known(body);
      if (newer) return;
      apply(bench, {row.seq, body, hex(row.hash)});
    } catch (const std::exception& exception) {
      unfit = "entry " + std::to_string(row.seq) + ": " + exception.what();
    }
  };
  TENTH_TRY(const Finding finding, audit_ledger(ledger, fold));
  if (!finding.ok) return tl::unexpected(false_ledger(file, finding.why));
  if (newer)
    return refuse("ledger_newer", "the ledger " + file.string() + " is of a newer version of Tenth",
                  "run the release that wrote it, or a later one");
  if (!unfit.empty()) return tl::unexpected(false_ledger(file, unfit));
  return hex(finding.head.hash);
}

}  // namespace

Result<StateLock> StateLock::take(const fs::path& state) {
  std::error_code error;
  const bool made = fs::create_directories(state, error);
  if (error)
    return refuse("state", "the state directory " + state.string() + " cannot be made: " + error.message(),
                  "give another with --state DIR");
  if (made) fs::permissions(state, fs::perms::owner_all, error);
  const fs::path file = state / "tenthd.lock";
  const int descriptor = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  if (descriptor < 0)
    return refuse("state", "the state directory " + state.string() + " cannot be written: " + std::strerror(errno),
                  "give another with --state DIR");
  if (::flock(descriptor, LOCK_EX | LOCK_NB) != 0) {
    ::close(descriptor);
    return refuse("state_locked", "another tenthd runs on " + state.string(),
                  "stop it, or give another directory with --state DIR");
  }
  return StateLock(descriptor);
}

StateLock::StateLock(StateLock&& other) noexcept : descriptor_(std::exchange(other.descriptor_, -1)) {}

StateLock::~StateLock() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

Result<Opened> open_ledger(const fs::path& state, bool anew, const Clock& clock, const Actor& self) {
  const fs::path file = state / "ledger.db";
  std::optional<Head> old;
  if (anew) {
    TENTH_TRY(old, put_aside(file));
  }
  Bench bench;
  std::string head_hash;
  if (std::error_code error; fs::exists(file, error) && fs::file_size(file, error) > 0) {
    TENTH_TRY(const Ledger reading, Ledger::open_read_only(file));
    TENTH_TRY(head_hash, verify(bench, reading, file));
  }
  TENTH_TRY(Ledger ledger, Ledger::open(file));
  Opened opened{std::move(ledger), std::move(bench), head_hash};
  const IntakeRules rules;
  const LiveGauges live;
  Draft draft(opened.bench, self, clock.now(), clock.boot(), rules, live);
  if (opened.bench.seq == 0) draft.append("ledger", first_body(old));
  draft.append("start", {{"program", "tenthd"}, {"version", TENTH_VERSION}, {"pid", getpid()}});
  if (auto stored = append_now(opened, draft); !stored) return tl::unexpected(stored.error());
  return opened;
}

}  // namespace tenth
