#include "rules/reading.hpp"

#include "rules/names.hpp"

namespace tenth {
namespace {

constexpr Names<Measures, 5> kMeasures{{"inside", "outside", "depth", "gap", "any"}};
constexpr Names<Reads, 2> kReads{{"size", "deviation"}};
constexpr Names<State, 4> kStates{{"kept", "suspect", "void", "claimed"}};
constexpr Names<Source, 3> kSources{{"gauge", "hand", "import"}};
constexpr Names<Doubt, 17> kDoubts{{"no_place", "wrong_kind", "no_setting", "setting_old", "unit", "range", "tenfold",
                                    "inch_mm", "turn", "repeat", "too_soon", "damaged", "away", "overdue", "drift",
                                    "setting_void", "gauge"}};

}  // namespace

std::optional<Length> size_20c_of(const Reading& reading, const Spec& spec) {
  const Feature* const feature = reading.place ? spec.find(reading.place->feature) : nullptr;
  if (!feature || feature->kind == Kind::gap || feature->kind == Kind::check) return std::nullopt;
  if (!reading.size || !reading.temperatures || !reading.temperatures->gauge) return std::nullopt;
  const auto material = expansion_of(spec, *feature);
  if (!material) return std::nullopt;
  return at_20c(*reading.size, *material, reading.temperatures->part, reading.gauge_expansion,
                *reading.temperatures->gauge);
}

std::string_view name(Measures measures) {
  return kMeasures.of(measures);
}
std::string_view name(Reads reads) {
  return kReads.of(reads);
}
std::string_view name(State state) {
  return kStates.of(state);
}
std::string_view name(Source source) {
  return kSources.of(source);
}
std::string_view name(Doubt doubt) {
  return kDoubts.of(doubt);
}
bool can_be_kept(Doubt doubt) {
  return doubt != Doubt::no_place && doubt != Doubt::wrong_kind && doubt != Doubt::no_setting && doubt != Doubt::unit;
}

std::optional<Measures> measures_named(std::string_view word) {
  return kMeasures.find(word);
}
std::optional<Reads> reads_named(std::string_view word) {
  return kReads.find(word);
}
std::optional<State> state_named(std::string_view word) {
  return kStates.find(word);
}
std::optional<Source> source_named(std::string_view word) {
  return kSources.find(word);
}
std::optional<Doubt> doubt_named(std::string_view word) {
  return kDoubts.find(word);
}

}  // namespace tenth
