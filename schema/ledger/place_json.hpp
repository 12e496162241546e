#pragma once

#include <optional>

#include "rules/place.hpp"
#include "schema/json/json.hpp"

namespace tenth {

/// A place as the array [feature, index, level, axis] (null where lacking), as rounds and moves keep it in the ledger.
Json place_json(const Place& place);
Place place_from(const Json& array);

/// The keys `feature, index, level, axis`, all null without a place.
void put_place(Json& body, const std::optional<Place>& place);
std::optional<Place> get_place(const Json& body);

}  // namespace tenth
