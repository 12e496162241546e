#include "cli/audit_run.hpp"

#include <algorithm>
#include <filesystem>

#include "cli/files.hpp"
#include "cli/ledger_copy.hpp"
#include "cli/progress.hpp"
#include "schema/export/exports.hpp"

namespace tenth::cli {
namespace {

constexpr std::size_t kMostRecordBytes = std::size_t{1} << 30;

void find_false(Finding& finding, std::int64_t seq, const std::string& why) {
  if (finding.ok || (finding.first_bad && seq < *finding.first_bad)) {
    finding.first_bad = seq;
    finding.why = why;
  }
  finding.ok = false;
}

/// The chain, and that its entries add up to a bench.
Result<Finding> walk(const Ledger& ledger, World& world) {
  Progress progress(world);
  Bench bench;
  std::optional<Refusal> strange;
  std::int64_t strange_seq = 0;
  auto finding = audit_ledger(ledger, [&](const Row& row) {
    progress.entries(row.seq);
    if (strange) return;
    if (const auto folded = fold_row(bench, row); !folded) {
      strange = folded.error();
      strange_seq = row.seq;
    }
  });
  if (finding && finding->ok && strange && strange->code == "ledger_newer") return tl::unexpected(*strange);
  if (finding && strange) find_false(*finding, strange_seq, strange->message);
  return finding;
}

/// Row `head.seq` of the ledger must have the hash that was kept elsewhere.
Result<bool> hold_against(const Ledger& ledger, const Head& head, const std::string& whose, Finding& finding) {
  const auto same = has_head(ledger, head.seq, head.hash);
  if (!same) return tl::unexpected(same.error());
  if (!*same) find_false(finding, head.seq, "entry " + std::to_string(head.seq) + " has not the hash of " + whose);
  return true;
}

/// What a whole chain leaves open: whoever may write the file may cut its end off, or chain it anew.
std::vector<std::string> unknowns(std::int64_t entries, const std::optional<std::int64_t>& witnessed) {
  if (!witnessed)
    return {"whether entries were cut off the end",
            "whether the whole chain was written anew: hold it against a "
            "printed head with --head SEQ:HEX"};
  if (*witnessed < entries)
    return {"whether entries after " + std::to_string(entries) + " were cut off, or those after " +
            std::to_string(*witnessed) + " written anew"};
  return {"whether entries after " + std::to_string(entries) + " were cut off"};
}

Result<RecordFinding> read_record(const std::string& path) {
  const auto text = read_text(path, kMostRecordBytes);
  if (!text) return tl::unexpected(text.error());
  return audit_record(*text);
}

/// The record alone: a printed head can be held against its chain up to its own head.
Audit of_record(RecordFinding finding, const std::optional<Head>& head) {
  const std::int64_t last = finding.head.seq;
  std::vector<std::string> open = {"whether the ledger it was made from still holds it: add --ledger FILE",
                                   "who made the record, when and with which program: no entry says so"};
  if (!finding.withheld.empty())
    open.push_back("whether one of the " + std::to_string(finding.withheld.size()) +
                   " entries that it gives by their digests alone is about this engine: add --ledger FILE");
  if (!head)
    open.emplace_back("whether the whole chain was written anew: hold it against a printed head with --head SEQ:HEX");
  else if (head->seq > last)
    open.push_back("whether entry " + std::to_string(head->seq) + " had the printed hash: the record's head is entry " +
                   std::to_string(last));
  else if (finding.ok && finding.hashes.at(static_cast<std::size_t>(head->seq - 1)) != head->hash)
    find_false(finding, head->seq, "entry " + std::to_string(head->seq) + " has not the hash of the printed head");
  if (head && head->seq < last)
    open.push_back("whether entries after " + std::to_string(head->seq) + " were written anew");
  return {std::move(finding), std::move(open)};
}

/// A record that withholds what its ledger has of the engine is false.
Result<void> hold_against(const Ledger& ledger, const RecordFinding& record, Finding& finding) {
  TENTH_TRY(const std::vector<Row> rows, ledger.rows(1, static_cast<std::size_t>(record.head.seq)));
  TENTH_TRY(const std::optional<std::int64_t> seq, wrongly_withheld(record, rows));
  if (seq) find_false(finding, *seq, "the record withholds entry " + std::to_string(*seq) + ", which is its engine's");
  return {};
}

Result<Audit> of_ledger(const AuditAsk& ask, const std::optional<RecordFinding>& record, World& world) {
  const auto ledger = Ledger::open_read_only(ask.ledger);
  if (!ledger) return tl::unexpected(ledger.error());
  auto finding = walk(*ledger, world);
  if (!finding) return tl::unexpected(finding.error());
  std::optional<std::int64_t> witnessed;
  const auto hold = [&](const Head& head, const std::string& whose) {
    witnessed = std::max(witnessed.value_or(0), head.seq);
    return hold_against(*ledger, head, whose, *finding);
  };
  if (ask.head)
    if (const auto held = hold(*ask.head, "the printed head"); !held) return tl::unexpected(held.error());
  if (record && record->ok)
    if (const auto held = hold(record->head, "the record's head"); !held) return tl::unexpected(held.error());
  if (record && record->ok && finding->ok)
    if (const auto held = hold_against(*ledger, *record, *finding); !held) return tl::unexpected(held.error());
  return Audit{*finding, unknowns(finding->entries, witnessed)};
}

}  // namespace

std::string default_ledger(const World& world) {
  const auto state = world.variable("XDG_STATE_HOME");
  const auto home = world.variable("HOME");
  std::filesystem::path own = state;
  if (state.empty() && !home.empty()) own = home + "/.local/state";
  const std::filesystem::path machine = "/var/lib/tenth/ledger.db";
  if (own.empty()) return machine;
  own /= "tenth/ledger.db";
  std::error_code ignored;
  return !std::filesystem::exists(own, ignored) && std::filesystem::exists(machine, ignored) ? machine : own;
}

Result<Audit> run_audit(const AuditAsk& ask, World& world) {
  std::optional<RecordFinding> record;
  if (!ask.record.empty()) {
    auto found = read_record(ask.record);
    if (!found) return tl::unexpected(found.error());
    record = std::move(*found);
  }
  if (ask.ledger.empty()) return of_record(std::move(record).value(), ask.head);
  auto audit = of_ledger(ask, record, world);
  if (audit && record && !record->ok && audit->finding.ok) {
    audit->finding.ok = false;
    audit->finding.first_bad = record->first_bad;
    audit->finding.why = "the record is false: " + record->why;
  }
  return audit;
}

}  // namespace tenth::cli
