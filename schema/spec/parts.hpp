#pragma once

#include "schema/toml/keys.hpp"

/// The parts of a spec file, each read and checked by itself; what needs other parts is given them.
namespace tenth::spec_file {

using namespace toml_file;

/// A layout or a feature has at most so many cylinders, journals or parts.
inline constexpr int kMostParts = 200;

Layout read_layout(TomlText& text, const toml::table& table);
Feature read_feature(TomlText& text, const Layout& layout, const Group& group);

/// The features that a check comes before, and the bore that a gap is measured in, must be there; so this is read when
/// all are known.
void check_named(TomlText& text, const Spec& spec, const Group& group, const Feature& feature);

/// A fit with its couples.
Fit read_fit(TomlText& text, const Spec& spec, const Group& group);

Spread read_spread(TomlText& text, const Spec& spec, const Group& group);

/// A feature with sizes, by its whole name; anything else is told.
const Feature* measured_feature(TomlText& text, const Spec& spec, const toml::node& where, const std::string& title,
                                const std::string& name);

/// Rods by cylinder run on crankpins that the layout says they share.
bool share_pins(const Layout& layout, const Feature& inside, const Feature& outside);

/// Through the pins, else i with i. Seats, where named, are one for each rod of a pin.
std::vector<Couple> coupled(const Layout& layout, const Feature& inside, const Feature& outside, const Names& seats);

}  // namespace tenth::spec_file
