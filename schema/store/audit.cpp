#include "schema/store/audit.hpp"

#include <limits>

#include "schema/json/json.hpp"

namespace tenth {
namespace {

constexpr std::size_t kRowsAtOnce = 500;
constexpr std::size_t kMostBodyBytes = std::size_t{16} << 20;  // a spec's whole text, escaped, stays far below

/// What is wrong with a body, as the end of a sentence; empty where nothing is.
std::string wrong_with_body(const std::string& body) {
  const Result<Json> value = parse_json(body, kMostBodyBytes);
  if (!value) return "has a body that is not JSON";
  if (!value->is_object()) return "has a body that is no JSON object";
  if (canonical(*value) != body) return "has a body that is not in the canonical form";
  for (const char* name : {"kind", "time"}) {
    const auto member = value->find(name);
    if (member == value->end() || !member->is_string()) return std::string("has a body without a ") + name;
  }
  return {};
}

std::string wrong_with(const Row& row, const Head& before) {
  if (row.seq > before.seq + 1) return "is missing";
  if (row.seq <= before.seq) return "has a row numbered " + std::to_string(row.seq) + " before it";
  if (row.hash != chain(before.hash, sha256(row.body))) {
    return "has a hash that does not follow from its body and the row before";
  }
  return wrong_with_body(row.body);
}

}  // namespace

Result<Finding> audit_ledger(const Ledger& ledger, const std::function<void(const Row&)>& each) {
  Finding finding;
  auto from = std::numeric_limits<std::int64_t>::min();  // a row before the first would be false too
  for (;;) {
    const auto rows = ledger.rows(from, kRowsAtOnce);
    if (!rows) return tl::unexpected(rows.error());
    if (rows->empty()) return finding;
    for (const Row& row : *rows) {
      if (const std::string wrong = wrong_with(row, finding.head); !wrong.empty()) {
        finding.ok = false;
        finding.first_bad = finding.head.seq + 1;
        finding.why = "row " + std::to_string(*finding.first_bad) + " " + wrong;
        return finding;
      }
      ++finding.entries;
      finding.head = {row.seq, row.hash};
      if (each) each(row);
    }
    from = finding.head.seq + 1;
  }
}

Result<bool> has_head(const Ledger& ledger, std::int64_t seq, const Digest& hash) {
  const auto rows = ledger.rows(seq, 1);
  if (!rows) return tl::unexpected(rows.error());
  return !rows->empty() && rows->front().seq == seq && rows->front().hash == hash;
}

}  // namespace tenth
