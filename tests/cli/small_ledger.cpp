#include "tests/cli/small_ledger.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>

namespace tenth::cli {
namespace {

constexpr const char* kSpec = R"(title = "Demo single"
unit = "mm"
[feature.bore]
kind = "inside"
limits = [80.000, 80.030]
)";

}  // namespace

SmallLedger::SmallLedger() {
  append("ledger", {{"id", "00112233445566778899aabbccddeeff"}, {"format", 1}});
  append("operator", {{"name", "Ada"}, {"user", nullptr}});
  append("spec", {{"engine", "K31"}, {"file", "k31.toml"}, {"text", kSpec}});
  append("engine", {{"engine", "K31"}, {"spec", 3}});
  append("engine_use", {{"engine", "K31"}});
}

std::vector<Row> SmallLedger::rows() const {
  return Ledger::open_read_only(file_).value().rows(1, 1000).value();
}

Head SmallLedger::head() const {
  return Ledger::open_read_only(file_).value().head();
}

void SmallLedger::append(const std::string& kind, const Json& body) {
  Json whole = {{"kind", kind},
                {"time", "2026-03-01T08:00:00.000000Z"},
                {"mono_ns", 1},
                {"boot", "b007"},
                {"salt", "0011223344556677"},
                {"by", {{"user", "ada"}, {"uid", 1000}, {"via", "socket"}}}};
  whole.update(body);
  const std::vector<std::string> bodies = {canonical(whole)};
  Ledger::open(file_).value().append(bodies).value();
}

Json SmallLedger::entries(const Json& params, std::size_t page) const {
  Json entries = Json::array();
  const auto from = params.at("from").get<std::int64_t>();
  for (const auto& row : rows())
    if (row.seq >= from && entries.size() < page)
      entries.push_back({{"seq", row.seq}, {"body", row.body}, {"hash", hex(row.hash)}});
  return {{"head", {{"seq", head().seq}, {"hash", hex(head().hash)}}}, {"entries", entries}};
}

void SmallLedger::tamper(const std::string& sql) const {
  SQLite::Database database(file_, SQLite::OPEN_READWRITE);
  for (const auto* trigger : {"entry_stays", "entry_remains", "entry_follows"})
    database.exec(std::string("DROP TRIGGER IF EXISTS ") + trigger);
  database.exec(sql);
}

}  // namespace tenth::cli
