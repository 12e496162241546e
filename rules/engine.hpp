#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "rules/reading.hpp"
#include "rules/spec.hpp"

namespace tenth {

/// A state of the parts of one feature: as found, after grinding, as left.
struct Stage {
  std::string name = "as found";
  std::int64_t entry = 0;  ///< seq of the ledger entry that began it; 0: the first
  bool carry = false;      ///< readings of the stage before count until replaced
  std::string time = {};   ///< of that entry; empty: the first
};

enum class Answer { yes, no, later, not_applicable };

/// The answer to a check that is no number.
struct Answered {
  Answer answer = Answer::later;
  std::string note;
  std::int64_t seq = 0;
  std::string time;
  std::optional<std::string> operator_name;
};

/// What was told to sit at one position, by the shop's own ids; empty: not told. Bearings are told by halves.
struct Installed {
  std::string whole, upper, lower;
  friend bool operator==(const Installed&, const Installed&) = default;
};

/// What a machine shop was asked to make of a feature: a size, and how far it may be off.
struct AskedSize {
  Length size, within;
};

/// The parts of a feature went to another shop, and perhaps came back.
struct Sent {
  std::int64_t seq = 0;
  std::string time, to, ask;
  std::optional<AskedSize> size;
  std::optional<std::int64_t> received;  ///< seq of the entry that says they are back; empty: they are away
};

/// All that is known of one engine: what was asked, what was measured, in order of seq.
struct Engine {
  std::string name;
  std::int64_t spec_seq = 0;
  std::shared_ptr<const Spec> spec;
  std::vector<Reading> readings;
  std::map<std::pair<std::string, int>, Answered> answers;          ///< by feature and position, of the latest stage
  std::map<std::string, std::vector<Stage>> stages;                 ///< by feature, oldest first; absent: as found only
  std::map<std::pair<std::string, int>, Installed> installed = {};  ///< by feature and position
  /// By feature and position: seqs of the entries that put another part there, oldest first.
  std::map<std::pair<std::string, int>, std::vector<std::int64_t>> replaced = {};
  std::map<std::string, Sent> sent = {};  ///< by feature, the last time
  /// By feature: the stages, by their entries, that its setup was said for.
  std::map<std::string, std::set<std::int64_t>> set_up = {};
  std::map<std::string, std::int64_t> imports = {};  ///< tables that were brought, by SHA-256: the last entry of each
  std::map<std::string, std::map<int, int>> mates = {};  ///< by fit, inside index: outside index (see `mate`)
};

/// The stage that a feature is in.
const Stage& stage_of(const Engine& engine, const std::string& feature);

/// The parts of this feature are at another shop.
bool is_away(const Engine& engine, const std::string& feature);

/// What must be done before the feature's results count was said, in its present stage, or nothing is asked for.
bool is_set_up(const Engine& engine, const Feature& feature);

/// A reading with a place was taken of the part that sits there now; what was read of another part counts no more, in
/// no stage, even where a later stage carries earlier readings.
bool of_present_part(const Engine& engine, const Reading& reading);

/// What counts at one place: the kept reading with the highest seq in the stage (with `presses` n the mean of the last
/// n; fewer: nothing), or one carried over from the stage before.
struct Counting {
  Length size;  ///< the figures are made of this: at 20 °C where `corrected`, else as read
  Length as_read;
  std::optional<Length> size_20c;  ///< where known for all its readings
  bool corrected = false;          ///< `size_20c` is known for all that counts at this index
  std::optional<Warmth> within;    ///< how well the temperatures are known, the worst of its readings
  std::vector<std::int64_t> seqs;  ///< of the readings it is made of
  std::string stage;
  bool carried = false;
  std::optional<Length> uncertainty;    ///< the largest of the gauges used; empty: one has none
  std::optional<Length> repeatability;  ///< likewise, where a gauge without one gives its uncertainty
};

/// By place, for the latest stage of every feature.
using CountingMap = std::map<Place, Counting>;
CountingMap counting(const Engine& engine);

/// Seqs of the readings that count and rest on a setting that no good check has confirmed since, by gauge.
std::map<std::string, std::vector<std::int64_t>> unconfirmed(const Engine& engine, const CountingMap& counts);

/// The kept readings at a place in its present stage, oldest first (carried ones are not among them).
std::vector<const Reading*> kept_at(const Engine& engine, const Place& place);

}  // namespace tenth
