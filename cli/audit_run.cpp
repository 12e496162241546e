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

Result<Finding> read_record(const std::string& path) {
  const auto text = read_text(path, kMostRecordBytes);
  if (!text) return tl::unexpected(text.error());
  return audit_record(*text);
}

/// The record alone: a printed head can be held against the record's own only.
Audit of_record(Finding finding, const std::optional<Head>& head) {
  std::vector<std::string> open = {"whether the ledger it was made from still holds it: add --ledger FILE",
                                   "who made the record, when and with which program: no entry says so"};
  if (head && head->seq == finding.head.seq && head->hash != finding.head.hash)
    find_false(finding, head->seq, "the record's head is not the printed one");
  if (head && head->seq != finding.head.seq)
    open.push_back("whether entry " + std::to_string(head->seq) + " had the printed hash: the record's head is entry " +
                   std::to_string(finding.head.seq));
  if (!head)
    open.emplace_back("whether the whole chain was written anew: hold it against a printed head with --head SEQ:HEX");
  return {std::move(finding), std::move(open)};
}

Result<Audit> of_ledger(const AuditAsk& ask, const std::optional<Finding>& record, World& world) {
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
  std::optional<Finding> record;
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
