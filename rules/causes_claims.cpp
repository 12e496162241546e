#include <algorithm>

#include "rules/causes.hpp"

namespace tenth {
namespace {

/// The shop's own size at the place of a claimed one, where the two differ by more than the shop's uncertainty.
const Counting* contradiction(const Engine& engine, const CountingMap& counts, const Reading& claimed) {
  if (!claimed.place || !claimed.size || !of_present_part(engine, claimed)) return nullptr;
  const auto own = counts.find(*claimed.place);
  if (own == counts.end() || claimed.stage_entry != stage_of(engine, claimed.place->feature).entry) return nullptr;
  const Length apart = (own->second.size - *claimed.size).magnitude();
  return apart > own->second.uncertainty.value_or(Length()) ? &own->second : nullptr;
}

}  // namespace

/// One alert for each place: of several claims the last is the one that counts.
std::vector<Cause> claim_causes(const Engine& engine, const CountingMap& counts) {
  std::map<Place, const Reading*> last;
  for (const Reading& reading : engine.readings)
    if (reading.state == State::claimed && reading.place) last[*reading.place] = &reading;
  std::vector<Cause> causes;
  for (const auto& [place, claimed] : last) {
    const Counting* const own = contradiction(engine, counts, *claimed);
    if (own == nullptr) continue;
    const Unit unit = engine.spec->unit;
    Cause cause = cause_of(AlertWhat::claim, spoken(place, *engine.spec));
    cause.text = cause.subject + ": " + claimed->claimed_by + " claims " + shown(*claimed->size, unit) +
                 ", measured here " + shown(own->size, unit) + ", " +
                 shown_past((own->size - *claimed->size).magnitude(), unit) + " apart: measure again, and ask";
    cause.value = own->size;
    cause.limit = claimed->size;
    cause.seqs = own->seqs;
    cause.seqs.push_back(claimed->seq);
    std::ranges::sort(cause.seqs);
    causes.push_back(std::move(cause));
  }
  return causes;
}

}  // namespace tenth
