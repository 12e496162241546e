#include <vector>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/doubting.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/params.hpp"

namespace tenth {
namespace {

/// What the master of one setting was in truth.
struct Correction {
  std::int64_t setting = 0;
  Length master;
};

/// The size that a reading has once the master of its setting is another.
Length size_with(const Reading& reading, const Setting& setting, Length master) {
  return master + (reading.value - setting.shown);
}

/// The settings of other gauges that were made in this one, clamped at a reading that rests on the corrected setting.
std::vector<Correction> following(const Bench& bench, const Setting& setting, Length master) {
  std::vector<Correction> corrections;
  for (const Setting& other : bench.settings) {
    const Reading* const reading = other.used.reading ? find_reading(bench, *other.used.reading) : nullptr;
    if (other.sets_zero && reading != nullptr && reading->setting == setting.seq)
      corrections.push_back({other.seq, size_with(*reading, setting, master)});
  }
  return corrections;
}

/// The correction asked for and all that follow from it, one after the other: a setting comes after what it rests on,
/// so this ends.
Result<std::vector<Correction>> all_corrections(const Bench& bench, const Correction& first) {
  std::vector<Correction> all = {first};
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto [seq, master] = all[i];
    if (master < Length() || master > kLongest)
      return refuse("length",
                    "the master of setting " + std::to_string(seq) + " would have no size that a master can have",
                    "give the size on its certificate");
    for (const Correction& next : following(bench, *find_setting(bench, seq), master)) all.push_back(next);
  }
  return all;
}

Result<const Setting*> correctable(const Bench& bench, std::int64_t seq) {
  const Setting* const setting = find_setting(bench, seq);
  const std::string number = std::to_string(seq);
  if (setting == nullptr)
    return refuse("unknown_setting", "entry " + number + " is no setting",
                  "`tenth gauge list --json` and readings name settings by number");
  if (setting->voided) return refuse("void", "setting " + number + " is void", "set the gauge anew");
  if (!setting->sets_zero)
    return refuse("check",
                  "entry " + number + " is a check of setting " + std::to_string(setting->previous.value_or(0)),
                  "correct that one: its checks follow");
  return setting;
}

std::vector<std::int64_t> resting_on(const Bench& bench, std::int64_t setting) {
  std::vector<std::int64_t> seqs;
  for (const Reading* reading : all_readings(bench))
    if (reading->setting == setting) seqs.push_back(reading->seq);
  return seqs;
}

}  // namespace

Decided master_correct(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::optional<std::int64_t> seq, params.maybe_number("setting"));
  TENTH_TRY(const std::string typed, params.text("size"));
  TENTH_TRY(const std::string reason, reason_of(params));
  if (!seq || *seq < 1) return wrong_words("seq", "that is no number of an entry", "give the number of the setting");
  TENTH_TRY(const std::optional<Unit> bare, params.unit(spec_unit(draft.bench())));
  TENTH_TRY(const Length master, parse_length(typed, bare));
  TENTH_TRY(const Setting* const setting, correctable(draft.bench(), *seq));
  if (setting->master == master) return refuse("same", "that is its master already", "nothing is left to do");
  TENTH_TRY(const std::vector<Correction> corrections, all_corrections(draft.bench(), {*seq, master}));
  Json answer = {
      {"setting", *seq}, {"gauge", setting->gauge}, {"master_mm", mm(master)}, {"unit", name(unit_typed(typed, bare))}};
  answer.update({{"settings", Json::array()}, {"seqs", Json::array()}});
  Json follows;  // null: the one asked for
  for (const Correction& each : corrections) {
    const std::int64_t entry =
        draft.append("setting_correct", {{"gauge", find_setting(draft.bench(), each.setting)->gauge},
                                         {"setting", each.setting},
                                         {"master_pm", pm(each.master)},
                                         {"reason", reason},
                                         {"follows", follows}});
    if (follows.is_null()) follows = entry;
    const std::vector<std::int64_t> seqs = resting_on(draft.bench(), each.setting);
    append_by_engine(draft, "resized", seqs, {{"setting", each.setting}, {"correction", entry}, {"reason", reason}});
    answer["settings"].push_back(each.setting);
    for (const std::int64_t resized : seqs) answer["seqs"].push_back(resized);
  }
  return [answer](const View&) { return answer; };
}

}  // namespace tenth
