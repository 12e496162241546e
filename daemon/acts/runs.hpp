#pragma once

#include "daemon/draft.hpp"

namespace tenth {

/// SEQ[..SEQ] and the reason for it.
struct Run {
  std::int64_t first = 0, last = 0;
  std::string reason;
};
Result<Run> run_of(const Json& object);

/// The readings of a run, in order of seq; other entries between them do not count.
Result<std::vector<const Reading*>> readings_of(const Bench& bench, const Run& run);

}  // namespace tenth
