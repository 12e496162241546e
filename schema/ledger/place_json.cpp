#include "schema/ledger/place_json.hpp"

namespace tenth {
namespace {

std::string text_of(const Json& value) {
  return value.is_null() ? std::string() : value.get<std::string>();
}

}  // namespace

Json place_json(const Place& place) {
  return Json::array({place.feature, place.index, text_or_null(place.level), text_or_null(place.axis)});
}

Place place_from(const Json& array) {
  return {array.at(0).get<std::string>(), array.at(1).get<int>(), text_of(array.at(2)), text_of(array.at(3))};
}

void put_place(Json& body, const std::optional<Place>& place) {
  body["feature"] = place ? Json(place->feature) : Json(nullptr);
  body["index"] = place ? Json(place->index) : Json(nullptr);
  body["level"] = place ? text_or_null(place->level) : Json(nullptr);
  body["axis"] = place ? text_or_null(place->axis) : Json(nullptr);
}

std::optional<Place> get_place(const Json& body) {
  if (body.at("feature").is_null()) return std::nullopt;
  return Place{body.at("feature").get<std::string>(), body.at("index").get<int>(), text_of(body.at("level")),
               text_of(body.at("axis"))};
}

}  // namespace tenth
