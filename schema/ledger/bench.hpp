#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "rules/alerts.hpp"
#include "rules/engine.hpp"
#include "rules/reading.hpp"

namespace tenth {

/// A ring, a block or a rod with a size of its own, on which gauges are set.
struct Master {
  std::int64_t entry = 0;
  std::string name;
  Length size;
  Unit unit = Unit::mm;               ///< that its size was given in
  std::string certificate;            ///< empty: none told
  std::string due;                    ///< the last day on which that holds, "2026-03-01"; empty: not told
  std::optional<Length> uncertainty;  ///< of its size, expanded (k = 2), for people: a gauge's own has it in
  bool dropped = false;
};

/// What a gauge is set on, beside the size: nothing where only a size was said.
struct MasterUsed {
  std::optional<std::int64_t> entry;    ///< of a master with a name
  std::string name;                     ///< of that
  std::string gauge;                    ///< another gauge, clamped at
  std::optional<std::int64_t> reading;  ///< its last reading, and
  std::optional<Length> uncertainty;    ///< that reading's
};

/// A calibration of a gauge: it holds through the due day.
struct Calibration {
  std::int64_t entry = 0;
  std::string on, due;  ///< days where the daemon runs, "2026-03-01"
  std::string certificate;
  std::string lab;                    ///< who did it; empty: not told
  std::optional<Length> uncertainty;  ///< as this one or one before it found it; empty: none did
};

/// Where the zero of a gauge was set: size = master + (shown - shown on the master).
struct Setting {
  std::int64_t seq = 0;
  std::string time;
  std::string gauge;
  Length master, shown;
  MasterUsed used;
  Unit unit = Unit::mm;                  ///< that the gauge showed
  std::optional<Length> drift;           ///< of the check that this frame made of the setting before
  std::optional<bool> good;              ///< the drift was within the gauge's limit
  bool sets_zero = true;                 ///< false: a re-check, which keeps the zero
  std::optional<std::int64_t> previous;  ///< the setting that stood; of a re-check the one it checked
  bool corrected = false;                ///< another size of its master was told afterwards
  bool voided = false;
};

/// Waiting for the frame that a gauge shows on its master.
struct Awaited {
  std::optional<Length> master;  ///< empty: a re-check
  MasterUsed used;
  std::int64_t seq = 0;
  std::string time;
  std::string study;  ///< of masters, which the frame belongs to; empty: it sets or checks the gauge
};

/// How the values of a gauge that shows them all the time become readings by themselves; `asked`: they do not.
enum class Capture { asked, turning, settled };
std::string_view name(Capture);
std::optional<Capture> capture_named(std::string_view);

struct Gauge {
  std::int64_t entry = 0;
  std::int64_t added = 0;  ///< the entry that added it; `entry` is a later one where it was changed
  std::string name, port, profile, profile_sha256;
  std::string channel;  ///< on a port that several gauges share; empty: the port is its own
  std::string button;   ///< a gauge whose readings take one of this, which shows its values; empty: none
  Capture capture = Capture::asked;
  Length settle_band = Length::from_um(3);
  std::int64_t settle_for_ms = 1000;
  Reads reads = Reads::size;
  Measures measures = Measures::any;
  std::optional<Unit> unit;
  std::optional<Length> resolution, uncertainty, repeatability;
  Length drift = Length::from_pm(2'500'000);  ///< 0.0025 mm, where `gauge add` says nothing
  std::string serial;
  std::optional<Expansion> expansion;  ///< as stated
  bool dropped = false;
  std::optional<Calibration> calibration;  ///< the one recorded last
  std::optional<Setting> setting;          ///< the one that counts
  std::int64_t confirmed = 0;              ///< seq of the setting or good check that vouches for its zero
  std::string confirmed_time;              ///< of that
  std::int64_t last_good_check = 0;        ///< seq
  std::int64_t last_gone = 0;              ///< seq of the entry that says so
  bool drifted = false;                    ///< its last check was past the limit
  std::optional<Awaited> awaited;
  std::string link_state, link_why;  ///< as last told: open, gone
};

/// A foot pedal: what a short and a long press do.
struct Pedal {
  std::int64_t entry = 0;
  std::string name, port, press;
  std::optional<std::string> hold;
};

/// A guided order of places and where it stands.
struct Round {
  std::int64_t seq = 0;
  std::vector<Place> places;
  bool again = false;
  std::optional<std::string> study;  ///< the study whose readings it takes, one for each place of the order
};

/// One reading that a gauge study asks for.
struct StudyTurn {
  int part = 0, trial = 0;  ///< from 1
  std::string by;           ///< operator
  Place place;
};

/// A planned study of a gauge: parts measured by operators again and again, in a random order.
struct Study {
  std::int64_t seq = 0;
  std::string name, engine, gauge, feature;
  int parts = 0, trials = 0;
  std::vector<std::string> operators;
  std::optional<Length> tolerance;
  std::vector<StudyTurn> order;
};

/// A planned study of what a gauge that reads sizes shows on masters, again and again, in a random order.
struct MasterStudy {
  std::int64_t seq = 0;
  std::string name, gauge;
  bool linearity = false;     ///< whether its bias differs along its range; else the bias alone
  std::vector<Length> order;  ///< the master of each turn
  std::vector<Length> shown;  ///< of the turns taken, in that order
  bool whole() const { return shown.size() == order.size(); }
};

/// A place that readings belong to: the common one, or a gauge's own. Without a place it may still hold the engine.
struct Standing {
  std::int64_t seq = 0;  ///< of the place entry; 0: never chosen
  std::optional<std::string> engine;
  std::optional<Place> place;
  std::optional<Round> round;
  std::size_t at = 0;  ///< position in the round
};

/// Temperatures of the parts on the bench, by feature, of one engine; "" stands for the features not named.
struct Warmths {
  std::string engine;
  std::map<std::string, std::int64_t> by_feature;  ///< seq of the `temperature` entry
};

/// A `temperature` entry.
struct Told {
  Temperatures temperatures;
  std::string time;
};

/// The whole text of a profile, kept once.
struct ProfileText {
  std::int64_t entry = 0;
  std::string name, text;
};

struct Operator {
  std::int64_t entry = 0;
  std::string name, user;
};

/// What somebody chose for an engine beside its stages and readings, as a record tells it.
struct Choice {
  std::int64_t seq = 0;
  std::string kind;  ///< of its entry: `decide`, `send`, `note`, ...
  std::string engine, time, text;
  std::string who;  ///< the operator, else the login
  std::optional<std::string> reason;
};

/// The state of the bench: a fold over the ledger, the same for daemon, command line and record reader.
struct Bench {
  std::string id;        ///< of the ledger
  std::int64_t seq = 0;  ///< of the last entry, and
  std::string time;      ///< when that was made
  std::map<std::string, Engine> engines;
  std::map<std::string, Operator> operators;
  std::map<std::string, Gauge> gauges;
  std::map<std::string, ProfileText> profiles;  ///< by the SHA-256 of the text
  std::map<std::string, Pedal> pedals;
  std::optional<std::string> engine, operator_name;    ///< in use
  std::map<std::string, std::string> gauge_operators;  ///< gauge to operator
  Standing common;
  std::map<std::string, Standing> own;  ///< gauge to its own place
  std::vector<Reading> placeless;       ///< readings that belong to no engine
  std::map<std::string, Master> masters;
  std::map<std::int64_t, Calibration> calibrations;  ///< all, by seq
  std::vector<Setting> settings;                     ///< all, in order of seq
  std::vector<Alert> alerts;
  std::map<std::string, Study> studies;
  std::map<std::string, MasterStudy> master_studies;                          ///< no name is in both
  std::vector<Choice> choices;                                                ///< in order of seq
  Warmths warmths;                                                            ///< that stand now
  std::map<std::int64_t, Told> temperatures;                                  ///< all that were told, by seq
  std::map<std::int64_t, std::pair<std::string, std::size_t>> reading_index;  ///< seq to engine ("" none) and position
};

const Reading* find_reading(const Bench& bench, std::int64_t seq);
Reading* find_reading(Bench& bench, std::int64_t seq);
const Setting* find_setting(const Bench& bench, std::int64_t seq);

/// The due day of what vouches for the gauge is past on this day.
bool is_overdue(const Gauge& gauge, const std::string& day);

/// The place that the next reading of a gauge belongs to.
const Standing& standing_of(const Bench& bench, const std::optional<std::string>& gauge);
/// What was told last of the temperature of a feature's parts, however long ago; null: nothing.
const Told* temperature_of(const Bench& bench, const std::string& engine, const std::string& feature);
std::optional<std::string> operator_of(const Bench& bench, const std::optional<std::string>& gauge);

}  // namespace tenth
