#pragma once

#include <string>
#include <string_view>

#include "rules/remedies/stock.hpp"

namespace tenth {

/// A stock file (format: `schema/stock.md`), read for an engine with this spec. Refused (4, code `stock`) as
/// "FILE:LINE:COLUMN: what is wrong", with what would be right: unknown keys, impossible walls, sizes and counts,
/// places that the engine's features do not have. Nothing is half-loaded.
Result<Stock> parse_stock(std::string_view text, const std::string& file, const Spec& spec);

}  // namespace tenth
