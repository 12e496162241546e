#pragma once

#include "rules/judge.hpp"

namespace tenth {

/// What a gap is filed to: the middle of its limits; with one limit, that. The feature has a limit.
Length gap_aim(const Feature& feature);

/// How much a ring's gap grows where its bore is this much larger: pi times that, for it is part of a circumference.
/// 355/113 is pi to seven digits, more than a gap is ever measured to.
Length gap_growth(Length larger);

/// A ring in another bore than the one that its gap was measured in.
struct MovedRing {
  FeatureResult now, would;     ///< its gap here and there
  Length bore_now, bore_would;  ///< mean sizes
};

/// The gap of a ring of `feature` at `index` as it would be in the bore of `other`. Refused (4): the spec does not say
/// which bore the feature is fitted in (`no_bore`); the gap or one of the bores is not measured whole (`incomplete`).
Result<MovedRing> ring_in_bore(const Engine& engine, const Feature& feature, int index, int other);

}  // namespace tenth
