#include "rules/thermal.hpp"

#include <array>
#include <utility>

#include "rules/decimal.hpp"
#include "rules/nearest.hpp"
#include "rules/spec.hpp"

namespace tenth {
namespace {

constexpr std::int64_t kNinths = 9;
/// Expansion × warmth comes in 1e-12 × 1e-6 / 9. The largest expansion at the warmest is a quarter of it, so that any
/// length times what remains stays within 128 bits.
constexpr std::int64_t kWhole = 9'000'000'000'000'000'000;

constexpr std::array<std::pair<std::string_view, Expansion>, 7> kMaterials = {{{"grey iron", {11'400'000}},
                                                                               {"ductile iron", {10'900'000}},
                                                                               {"steel", {11'300'000}},
                                                                               {"alloy steel", {12'300'000}},
                                                                               {"aluminium block", {21'500'000}},
                                                                               {"piston alloy", {19'500'000}},
                                                                               {"forged piston alloy", {22'500'000}}}};

constexpr Warmth celsius(std::int64_t degrees) {
  return {(degrees - 20) * 1'000'000 * kNinths};
}

/// Takes one of the endings, with the blank before it.
bool take_ending(std::string_view& text, std::string_view one, std::string_view other) {
  const bool found = text.ends_with(one) || text.ends_with(other);
  if (!found) return false;
  text.remove_suffix(text.ends_with(one) ? one.size() : other.size());
  if (text.ends_with(' ')) text.remove_suffix(1);
  return true;
}

std::optional<std::int64_t> millionths(std::string_view number) {
  constexpr int kPlaces = 6;
  const auto parsed = parse_decimal(number);
  return parsed ? scaled(*parsed, kPlaces) : std::nullopt;
}

}  // namespace

Result<Warmth> parse_temperature(std::string_view text) {
  constexpr auto kHow = "write degrees Celsius such as 21.5, or 70F";
  std::string_view number = text;
  const bool fahrenheit = take_ending(number, "F", "f");
  if (!fahrenheit) take_ending(number, "C", "c");
  const auto value = millionths(number);
  if (!value) return wrong_words("temperature", quoted(text) + " is no temperature", kHow);
  const Warmth warmth = fahrenheit ? Warmth{(*value - 68'000'000) * 5} : Warmth{(*value - 20'000'000) * kNinths};
  if (warmth < celsius(-50) || warmth > celsius(150))
    return wrong_words("temperature", quoted(text) + " is no temperature of a shop", kHow);
  return warmth;
}

Result<Warmth> parse_within(std::string_view text) {
  constexpr std::int64_t kMost = 50'000'000;
  std::string_view number = text;
  take_ending(number, "K", "k");
  const auto value = millionths(number);
  if (!value || *value < 0 || *value > kMost)
    return wrong_words("within", quoted(text) + " is no number of kelvins from 0 to 50", "write such as 0.5");
  return Warmth{*value * kNinths};
}

std::optional<Expansion> parse_expansion(std::string_view text) {
  constexpr std::int64_t kMost = 1'000'000'000;
  const auto value = millionths(text);
  if (!value || *value < 0 || *value > kMost) return std::nullopt;
  return Expansion{*value};
}

std::string in_millionths(Expansion expansion) {
  return exact_mm(Length::from_pm(expansion.per_k_e12) * 1000);
}

std::string in_kelvins(Warmth difference) {
  constexpr std::int64_t kThousandth = 1000 * kNinths;
  return exact_mm(Length::from_um(difference.ninths_uk / kThousandth));
}

std::optional<Expansion> expansion_of(const Spec& spec, const Feature& feature) {
  if (const auto own = spec.materials.find(feature.material); own != spec.materials.end()) return own->second;
  for (const auto& [name, expansion] : kMaterials)
    if (name == feature.material) return expansion;
  return std::nullopt;
}

Length at_20c(Length size, Expansion part, Warmth part_warmth, Expansion gauge, Warmth gauge_warmth) {
  const Wide grown = Wide{part.per_k_e12} * part_warmth.ninths_uk - Wide{gauge.per_k_e12} * gauge_warmth.ninths_uk;
  return Length::from_pm(divide_rounded(Wide{size.pm()} * (Wide{kWhole} - grown), kWhole));
}

}  // namespace tenth
