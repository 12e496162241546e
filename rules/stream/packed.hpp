#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "rules/result.hpp"
#include "rules/stream/sample.hpp"

namespace tenth::stream {

/// A stream as text, to stand beside its reading in the ledger. Exact: `unpack` gives back every nanosecond and
/// picometre. It is empty for no samples; else whole numbers with one blank between them:
///
///     AT VALUE NS PM  and for each later sample  TIME CHANGE
///
/// AT nanoseconds and VALUE picometres are the first sample's. TIME × NS nanoseconds and CHANGE × PM picometres lead
/// from each sample to the next. NS and PM are the largest units that divide all of these (1 where all are zero).
/// What leads further than 64 bits reach comes round, there and back.
std::string pack(std::span<const Sample> samples);

/// Gives back what was packed. Refused (`stream`, exit status 2): any text that `pack` does not write.
Result<std::vector<Sample>> unpack(std::string_view text);

}  // namespace tenth::stream
