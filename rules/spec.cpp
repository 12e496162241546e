#include "rules/spec.hpp"

#include <algorithm>

#include "rules/names.hpp"

namespace tenth {

const Feature* Spec::find(std::string_view feature_name) const {
  const auto found =
      std::find_if(features.begin(), features.end(), [&](const Feature& f) { return f.name == feature_name; });
  return found == features.end() ? nullptr : &*found;
}

std::string_view name(Kind kind) {
  switch (kind) {
    case Kind::inside:
      return "inside";
    case Kind::outside:
      return "outside";
    case Kind::gap:
      return "gap";
    case Kind::depth:
      return "depth";
    case Kind::check:
      return "check";
  }
  return {};
}

std::string_view name(OutOfRoundBy by) {
  return by == OutOfRoundBy::same_level ? "same_level" : "across_levels";
}

std::string_view name(TaperBy by) {
  switch (by) {
    case TaperBy::along_axis:
      return "along_axis";
    case TaperBy::ends:
      return "ends";
    case TaperBy::pairs:
      return "pairs";
    case TaperBy::level_means:
      return "level_means";
  }
  return {};
}

std::string_view name(Shape shape) {
  constexpr Names<Shape, 5> kShapes{{"straight", "first_wider", "last_wider", "barrel", "waist"}};
  return kShapes.of(shape);
}

std::string_view name(Half half) {
  constexpr Names<Half, 3> kHalves{{"upper", "lower", "either"}};
  return kHalves.of(half);
}

}  // namespace tenth
