#include <algorithm>
#include <set>

#include "rules/causes.hpp"
#include "rules/joined.hpp"
#include "rules/words.hpp"

namespace tenth {
namespace {

/// An alert of the gauge itself speaks of these, once for all its readings.
bool told_by_gauge(Doubt doubt) {
  return doubt == Doubt::gauge || doubt == Doubt::overdue || doubt == Doubt::drift;
}

/// The suspect readings of one place.
struct Held {
  std::vector<std::int64_t> seqs;
  std::set<Doubt> doubts;
};

std::string told(const std::string& subject, const Held& held) {
  std::vector<std::string> seqs, doubts;
  for (const std::int64_t seq : held.seqs) seqs.push_back(std::to_string(seq));
  for (const Doubt doubt : held.doubts) doubts.emplace_back(plainly(doubt));
  const bool one = seqs.size() == 1;
  return subject + (one ? ": reading " : ": readings ") + joined(seqs, ", ") + (one ? " is" : " are") +
         " suspect: " + joined(doubts, "; ") + ". tenth void " + (one ? seqs.front() : "SEQ") + " --reason TEXT, or " +
         (std::ranges::all_of(held.doubts, can_be_kept) ? "keep or move" : "move") + " it";
}

/// The kept readings of a feature in its present stage; of one index, or of all where `index` is 0.
std::vector<std::int64_t> kept_of(const Engine& engine, const std::string& feature, int index) {
  const std::int64_t stage = stage_of(engine, feature).entry;
  std::vector<std::int64_t> seqs;
  for (const Reading& reading : engine.readings)
    if (reading.state == State::kept && reading.place && reading.place->feature == feature &&
        reading.stage_entry == stage && (index == 0 || reading.place->index == index) &&
        of_present_part(engine, reading))
      seqs.push_back(reading.seq);
  return seqs;
}

/// Nothing is held up by this check any more.
bool cleared(const Engine& engine, const std::string& check, int index) {
  const auto found = engine.answers.find({check, index});
  return found != engine.answers.end() &&
         (found->second.answer == Answer::yes || found->second.answer == Answer::not_applicable);
}

}  // namespace

std::vector<Cause> suspect_causes(const Engine& engine) {
  std::map<std::optional<Place>, Held> by_place;
  for (const Reading& reading : engine.readings) {
    if (reading.state != State::suspect ||
        (!reading.doubts.empty() && std::ranges::all_of(reading.doubts, told_by_gauge)))
      continue;
    Held& held = by_place[reading.place];
    held.seqs.push_back(reading.seq);
    held.doubts.insert(reading.doubts.begin(), reading.doubts.end());
  }
  std::vector<Cause> causes;
  for (const auto& [place, held] : by_place) {
    Cause cause = cause_of(AlertWhat::suspect, place ? spoken(*place, *engine.spec) : "no place");
    cause.text = told(cause.subject, held);
    cause.seqs = held.seqs;
    causes.push_back(std::move(cause));
  }
  return causes;
}

/// A check of as many indexes as the feature it guards guards each its own.
std::vector<Cause> early_causes(const Engine& engine) {
  std::vector<Cause> causes;
  for (const Feature& check : engine.spec->features)
    for (int index = 1; index <= check.count(); ++index) {
      if (cleared(engine, check.name, index)) continue;
      Cause cause = cause_of(AlertWhat::suspect, subject_of(check.name, check, index));
      std::vector<std::string> early;
      for (const std::string& guarded : check.before) {
        const bool each = engine.spec->find(guarded)->count() == check.count();
        const auto seqs = kept_of(engine, guarded, each ? index : 0);
        if (!seqs.empty()) early.push_back(guarded);
        cause.seqs.insert(cause.seqs.end(), seqs.begin(), seqs.end());
      }
      if (early.empty()) continue;
      cause.text = cause.subject + ": " + joined(early, " and ") + " measured before this was answered yes. " +
                   "tenth at " + cause.subject + ", then tenth enter yes, no, n/a or later";
      causes.push_back(std::move(cause));
    }
  return causes;
}

}  // namespace tenth
