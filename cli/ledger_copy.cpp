#include "cli/ledger_copy.hpp"

#include <exception>

#include "cli/progress.hpp"
#include "cli/render/text.hpp"
#include "schema/ledger/fold.hpp"

namespace tenth::cli {
namespace {

constexpr int kPage = 500;
constexpr std::size_t kMostBodyBytes = 4 * kMostRequestBytes;  // a spec of a whole request, escaped

tl::unexpected<Refusal> bad_row(const std::string& why) {
  return tl::unexpected(Refusal{Exit::unreachable, "bad_answer", "the daemon's ledger cannot be copied: " + why,
                                "run 'tenth audit' on the ledger"});
}

Result<Digest> digest_of(const Json& text) {
  const auto digest = digest_from_hex(text.get<std::string>());
  if (!digest) return bad_row("a hash is no SHA-256 in hex");
  return *digest;
}

Result<Head> head_of(const Json& answer) {
  const auto& head = answer.at("head");
  if (count(head, "seq") == 0) return Head{};
  const auto hash = digest_of(head.at("hash"));
  if (!hash) return tl::unexpected(hash.error());
  return Head{count(head, "seq"), *hash};
}

/// Rows of one answer, in order and no further than the head that was fixed by the first.
Result<bool> take(LedgerCopy& copy, const Json& entries) {
  for (const auto& entry : entries) {
    const auto next = static_cast<std::int64_t>(copy.rows.size()) + 1;
    if (next > copy.head.seq) return true;
    const auto hash = digest_of(entry.at("hash"));
    if (!hash) return tl::unexpected(hash.error());
    Row row{count(entry, "seq"), entry.at("body").get<std::string>(), *hash};
    if (row.seq != next) return bad_row("entry " + std::to_string(next) + " is missing");
    if (const auto folded = fold_row(copy.bench, row); !folded) return bad_row(folded.error().message);
    copy.rows.push_back(std::move(row));
  }
  return true;
}

}  // namespace

Result<bool> fold_row(Bench& bench, const Row& row) {
  const auto body = parse_json(row.body, kMostBodyBytes);
  if (!body) return tl::unexpected(body.error());
  try {
    if (!is_known(*body))
      return refuse("ledger_newer", "entry " + std::to_string(row.seq) + " is of a newer version of Tenth",
                    "use the tenth of the release that wrote it");
    apply(bench, {row.seq, *body, hex(row.hash)});
  } catch (const std::exception& error) {
    return refuse("not_ours",
                  "entry " + std::to_string(row.seq) + " says what no version of Tenth wrote: " + error.what(),
                  "see that the ledger is Tenth's and whole");
  }
  return true;
}

Result<LedgerCopy> copy_ledger(Context& context) {
  LedgerCopy copy;
  Progress progress(context.world);
  do {
    const auto have = static_cast<std::int64_t>(copy.rows.size());
    const auto answer = context.call("entries", {{"from", have + 1}, {"most", kPage}});
    if (!answer) return tl::unexpected(answer.error());
    if (have == 0) {
      const auto head = head_of(*answer);
      if (!head) return tl::unexpected(head.error());
      copy.head = *head;
    }
    if (const auto taken = take(copy, answer->at("entries")); !taken) return tl::unexpected(taken.error());
    const auto now = static_cast<std::int64_t>(copy.rows.size());
    if (now == have && have < copy.head.seq) return bad_row("it ends before its head");
    progress.entries(now, copy.head.seq);
  } while (static_cast<std::int64_t>(copy.rows.size()) < copy.head.seq);
  return copy;
}

}  // namespace tenth::cli
