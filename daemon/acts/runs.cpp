#include "daemon/acts/runs.hpp"

#include "daemon/params.hpp"

namespace tenth {

Result<Run> run_of(const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::optional<std::int64_t> first, params.maybe_number("first"));
  TENTH_TRY(const std::optional<std::int64_t> last, params.maybe_number("last"));
  if (!first || *first < 1 || (last && *last < *first))
    return wrong_words("seq", "that is no run of entries", "give SEQ or SEQ..SEQ");
  TENTH_TRY(const std::string reason, reason_of(params));
  return Run{*first, last.value_or(*first), reason};
}

Result<std::vector<const Reading*>> readings_of(const Bench& bench, const Run& run) {
  std::vector<const Reading*> readings;
  if (run.last > bench.seq)
    return refuse("no_reading",
                  "the ledger ends at entry " + std::to_string(bench.seq) + ", before " + std::to_string(run.last),
                  "`tenth readings --all` shows the numbers of readings");
  for (auto it = bench.reading_index.lower_bound(run.first); it != bench.reading_index.end() && it->first <= run.last;
       ++it)
    readings.push_back(find_reading(bench, it->first));
  if (readings.empty())
    return refuse("no_reading", "there is no reading with the number " + std::to_string(run.first),
                  "`tenth readings --all` shows their numbers");
  return readings;
}

}  // namespace tenth
