#pragma once

#include "schema/ledger/bench.hpp"

namespace tenth::sample {

/// The name holds all that HTML and CSV must not take literally.
inline const std::string kEngine = "Job 41 <\"blue\"> six & 'spare'";

/// A six of our own invention, in millimetres: bores, pistons, main bearings and journals, ring gaps, a check.
Spec spec();

/// The bench after that engine was measured: main journal 3 found too large, ground, and measured again; one reading
/// kept in spite of a doubt, one void, one moved; an alert accepted; one ring gap still to measure.
Bench bench();

/// A reading at a place, as the gauge "micrometer" would give it.
Reading reading(std::int64_t seq, const Place& place, Length size);

inline Length um(std::int64_t micrometres) {
  return Length::from_um(micrometres);
}

}  // namespace tenth::sample
