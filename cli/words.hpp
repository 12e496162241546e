#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "rules/length.hpp"
#include "schema/json/json.hpp"

namespace tenth::cli {

/// For options that take one of a few words; a slip gets the nearest.
CLI::Validator one_of(std::vector<std::string> words);

/// For a reason, a note that is required, a name: something must stand there.
CLI::Validator not_blank();

/// For a number that is whole and not less.
CLI::Validator whole_from(std::int64_t least);

/// SEQ or SEQ..SEQ, both from 1 and in order.
struct Run {
  std::int64_t first = 0;
  std::optional<std::int64_t> last;
};
Result<Run> parse_run(const std::string& text);

/// The words of one length, "3.2677" or "3.2677" "in", as one text that is a length. Without any unit the daemon
/// decides which one it is in; what is a length in no unit is refused (2) here.
Result<std::string> length_text(const std::vector<std::string>& words, std::optional<Unit> bare);

/// A time as the daemon compares them: from RFC 3339, or from a local day, which begins at its midnight.
Result<std::string> time_text(const std::string& text);

/// The text, or null where it is empty: for parameters that may be left out.
Json given(const std::string& text);

}  // namespace tenth::cli
