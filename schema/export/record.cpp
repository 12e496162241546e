#include <set>
#include <vector>

#include "schema/export/exports.hpp"
#include "schema/export/record_parts.hpp"
#include "schema/ledger/references.hpp"

namespace tenth {
namespace {

constexpr std::size_t kMostBodyBytes = std::size_t{16} << 20;

bool names_engine(const Json& body, const std::string& engine) {
  const auto found = body.find("engine");
  return found != body.end() && found->is_string() && *found == engine;
}

Result<std::vector<Json>> bodies_of(std::span<const Row> rows) {
  std::vector<Json> bodies;
  bodies.reserve(rows.size());
  for (const Row& row : rows) {
    auto body = parse_json(row.body, kMostBodyBytes);
    if (!body || !body->is_object())
      return refuse("ledger_false", "entry " + std::to_string(row.seq) + " of the ledger is no JSON object",
                    "see what is wrong with: tenth audit");
    bodies.push_back(std::move(*body));
  }
  return bodies;
}

/// `bodies[0]` is row 1.
std::set<std::int64_t> needed(const std::vector<Json>& bodies, const std::string& engine) {
  const auto last = static_cast<std::int64_t>(bodies.size());
  std::set<std::int64_t> chosen;
  std::vector<std::int64_t> open = {1};
  for (std::int64_t seq = 1; seq <= last; ++seq)
    if (names_engine(bodies[static_cast<std::size_t>(seq - 1)], engine)) open.push_back(seq);
  while (!open.empty()) {
    const std::int64_t seq = open.back();
    open.pop_back();
    if (seq < 1 || seq > last || !chosen.insert(seq).second) continue;
    for (const std::int64_t rests_on : references(bodies[static_cast<std::size_t>(seq - 1)])) open.push_back(rests_on);
  }
  return chosen;
}

/// Entries from 1 to the head without a gap: bodies of those that are given, digests in runs for the others.
Json entries_json(std::span<const Row> rows, const std::set<std::int64_t>& given) {
  Json entries = Json::array();
  bool in_run = false;
  for (const Row& row : rows) {
    if (given.contains(row.seq)) {
      entries.push_back({{"seq", row.seq}, {"body", row.body}});
      in_run = false;
      continue;
    }
    if (!in_run) entries.push_back({{"seq", row.seq}, {"digests", ""}});
    entries.back()["digests"].get_ref<std::string&>() += hex(sha256(row.body));
    in_run = true;
  }
  return entries;
}

Given given_entries(std::span<const Row> rows, std::vector<Json>& bodies, const std::set<std::int64_t>& seqs) {
  Given given;
  for (const std::int64_t seq : seqs) {
    const auto at = static_cast<std::size_t>(seq - 1);
    given.emplace(seq, Entry{seq, std::move(bodies[at]), hex(rows[at].hash)});
  }
  return given;
}

}  // namespace

Result<std::set<std::int64_t>> needed_entries(std::span<const Row> rows, const std::string& engine) {
  TENTH_TRY(const std::vector<Json> bodies, bodies_of(rows));
  return needed(bodies, engine);
}

Result<std::string> record(std::span<const Row> rows, const std::string& engine, const std::string& made_at,
                           const std::string& made_by) {
  if (rows.empty()) return refuse("ledger_unreadable", "the ledger is empty", "start tenthd on it once");
  auto bodies = bodies_of(rows);
  if (!bodies) return tl::unexpected(bodies.error());
  const std::set<std::int64_t> seqs = needed(*bodies, engine);
  const Given given = given_entries(rows, *bodies, seqs);
  std::int64_t false_at = 0;
  auto figures = figures_from(given, engine, false_at);
  if (!figures) return tl::unexpected(figures.error());
  return canonical({{"format", kRecordFormat},
                    {"version", kRecordVersion},
                    {"ledger", given.at(1).body.value("id", "")},
                    {"engine", engine},
                    {"made_at", made_at},
                    {"made_by", made_by},
                    {"program", "tenth " TENTH_VERSION},
                    {"entries", entries_json(rows, seqs)},
                    {"head", {{"seq", rows.back().seq}, {"hash", hex(rows.back().hash)}}},
                    {"seals", Json::array()},
                    {"readings", std::move(figures->readings)},
                    {"check", std::move(figures->check)}});
}

}  // namespace tenth
