#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
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

enum class Answer { yes, no, later };

/// The answer to a check that is no number.
struct Answered {
  Answer answer = Answer::later;
  std::string note;
  std::int64_t seq = 0;
  std::string time;
  std::optional<std::string> operator_name;
};

/// All that is known of one engine: what was asked, what was measured, in order of seq.
struct Engine {
  std::string name;
  std::int64_t spec_seq = 0;
  std::shared_ptr<const Spec> spec;
  std::vector<Reading> readings;
  std::map<std::pair<std::string, int>, Answered> answers;  ///< by feature and position, of the latest stage
  std::map<std::string, std::vector<Stage>> stages;         ///< by feature, oldest first; absent: as found only
};

/// The stage that a feature is in.
const Stage& stage_of(const Engine& engine, const std::string& feature);

/// What counts at one place: the kept reading with the highest seq in the stage (with `presses` n the mean of the last
/// n; fewer: nothing), or one carried over from the stage before.
struct Counting {
  Length size;                     ///< the figures are made of this: at 20 °C where `corrected`, else as read
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

/// The kept readings at a place in its present stage, oldest first (carried ones are not among them).
std::vector<const Reading*> kept_at(const Engine& engine, const Place& place);

}  // namespace tenth
