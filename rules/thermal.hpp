#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "rules/length.hpp"

namespace tenth {

struct Spec;
struct Feature;

/// How far above 20 °C, or a difference of temperatures, exactly: in ninths of a microkelvin, so that degrees of both
/// scales with six decimals are whole numbers of it.
struct Warmth {
  std::int64_t ninths_uk = 0;
  friend auto operator<=>(const Warmth&, const Warmth&) = default;
};

/// A temperature as people type it: "21.5", "21.5 C" in degrees Celsius, "70 F" in degrees Fahrenheit. Refused (2): no
/// number, finer than a microkelvin, colder than -50 or hotter than 150 °C.
Result<Warmth> parse_temperature(std::string_view text);

/// How well a temperature is known, in kelvins: "0.5", "0.5 K". Refused (2): no number, below 0, above 50.
Result<Warmth> parse_within(std::string_view text);

/// Linear thermal expansion, exactly: in 1e-12 per kelvin.
struct Expansion {
  std::int64_t per_k_e12 = 0;
  friend auto operator<=>(const Expansion&, const Expansion&) = default;
};

/// "11.5", in 1e-6 per kelvin; none where it is no number from 0 to 1000 with at most six decimals.
std::optional<Expansion> parse_expansion(std::string_view text);
std::string in_millionths(Expansion expansion);  ///< "11.5"
std::string in_kelvins(Warmth difference);       ///< "0.5", cut off after three decimals

/// A gauge of which nothing is stated: steel (common practice).
inline constexpr Expansion kGaugeExpansion{11'500'000};

/// Of a feature's material: as the spec says, else from the table of common materials (handbook values and the middles
/// of handbook ranges); none for one that neither knows.
std::optional<Expansion> expansion_of(const Spec& spec, const Feature& feature);

/// What was known when a reading was taken, as entry `entry` of the ledger told it.
struct Temperatures {
  std::int64_t entry = 0;
  Warmth part;
  std::optional<Warmth> gauge, within;
};

/// The size at 20 °C, the reference temperature of ISO 1: size × (1 - a_part (t_part - 20) + a_gauge (t_gauge - 20)),
/// exact, rounded half away from zero to a picometre.
Length at_20c(Length size, Expansion part, Warmth part_warmth, Expansion gauge, Warmth gauge_warmth);

}  // namespace tenth
