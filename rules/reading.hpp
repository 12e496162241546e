#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/length.hpp"
#include "rules/place.hpp"
#include "rules/thermal.hpp"

namespace tenth {

/// The turn of a gauge study that a reading was taken for, from 0.
struct StudyTaken {
  std::string study;
  std::size_t turn = 0;
};

/// What a gauge can measure: a gauge for insides cannot record on a journal.
enum class Measures { inside, outside, depth, gap, any };
/// What the frames of a gauge hold: a size, or the deviation from its setting.
enum class Reads { size, deviation };
/// `claimed`: somebody else's figure, shown and never judged.
enum class State { kept, suspect, voided, claimed };
/// `imported`: from a table that somebody brought.
enum class Source { gauge, hand, imported };

/// Why a reading is suspect, in the order in which they are told.
enum class Doubt {
  no_place,
  wrong_kind,
  no_setting,
  setting_old,
  unit,
  range,
  tenfold,
  inch_mm,
  turn,
  repeat,
  too_soon,
  damaged,
  away,
  overdue,
  drift,
  setting_void,
  gauge
};

/// One value from one gauge at one place, with what later entries of the ledger made of it. Value, raw and text never
/// change.
struct Reading {
  std::int64_t seq = 0;
  std::string time;  ///< RFC 3339 UTC with microseconds
  std::string hash;  ///< hex; empty until its entry is on disk
  std::optional<std::string> engine;
  std::optional<Place> place;
  std::string label;  ///< of the index; empty without a place
  std::optional<std::string> operator_name, gauge;
  std::string raw, text;  ///< the frame without its end, escaped; the number as it was sent
  Unit unit = Unit::mm;
  Length value;                ///< as read
  std::optional<Length> size;  ///< absolute, after the setting
  State state = State::kept;
  std::string stage;
  std::int64_t stage_entry = 0;  ///< seq of the entry that began the stage; 0: as found
  std::vector<Doubt> doubts;
  std::optional<std::string> reason;   ///< of the last void, keep or move
  std::string reason_by, reason_time;  ///< who gave it, and when
  Source source = Source::gauge;
  std::optional<Place> moved_from;
  std::string moved_from_label;                    ///< of its index
  std::string moved_reason, moved_by, moved_time;  ///< of the last move, whatever came after it
  std::optional<std::int64_t> setting;
  std::optional<std::int64_t> calibration;  ///< of its gauge that stood when it was taken
  bool overdue = false;                     ///< the due day of that was past
  std::optional<Length> spread;             ///< of the passes of a rocked gauge: largest less smallest turning point
  std::optional<int> passes;                ///< how many of those
  bool closed = false;                      ///< a good check of the gauge on its master followed
  std::optional<Length> uncertainty, repeatability;  ///< of the gauge, expanded (k = 2); see `joined`
  std::string note;                                  ///< what was noted with it, or its table says
  std::optional<std::int64_t> import;                ///< the entry of the table it came with
  std::string measured_at;                           ///< as that table says; empty: it does not
  std::string claimed_by;                            ///< whose figure it is, where it is claimed
  std::optional<StudyTaken> study;
  std::optional<Temperatures> temperatures;  ///< as known when it was taken
  Expansion gauge_expansion = kGaugeExpansion;
  std::optional<Length> size_20c;  ///< the size at 20 °C; empty where not all that it takes is known
};

/// The size at 20 °C of a reading at its place: wants a size, both temperatures and the feature's material. Gaps and
/// checks have none.
std::optional<Length> size_20c_of(const Reading& reading, const Spec& spec);

/// False: a reading with this doubt is never kept as it is, it wants another place, a setting, or a new reading.
bool can_be_kept(Doubt doubt);

std::string_view name(Measures);
std::string_view name(Reads);
std::string_view name(State);
std::string_view name(Source);
std::string_view name(Doubt);
std::optional<Measures> measures_named(std::string_view);
std::optional<Reads> reads_named(std::string_view);
std::optional<State> state_named(std::string_view);
std::optional<Source> source_named(std::string_view);
std::optional<Doubt> doubt_named(std::string_view);

}  // namespace tenth
