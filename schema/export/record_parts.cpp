#include "schema/export/record_parts.hpp"

#include "rules/judge.hpp"
#include "schema/wire/views.hpp"

namespace tenth {

Result<Figures> figures_from(const Given& given, const std::string& engine, std::int64_t& false_at) {
  Bench bench;
  for (const auto& [seq, entry] : given) {
    try {
      apply(bench, entry);
    } catch (const std::exception& error) {
      false_at = seq;
      return refuse("ledger_false", "entry " + std::to_string(seq) + " says what Tenth never wrote: " + error.what(),
                    "audit the ledger that it comes from");
    }
  }
  const auto found = bench.engines.find(engine);
  if (found == bench.engines.end() || !found->second.spec)
    return refuse("unknown_engine", "no entry makes an engine " + engine, "see the names with: tenth engine list");
  return Figures{readings_json(found->second, true), check_document(found->second)};
}

}  // namespace tenth
