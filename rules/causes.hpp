#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "rules/alerts.hpp"

namespace tenth {

/// The parts of `causes`: figures that are out or doubtful, readings held as suspect, and parts measured too early.
std::vector<Cause> figure_causes(const Engine& engine, const Report& report);
std::vector<Cause> suspect_causes(const Engine& engine);
std::vector<Cause> early_causes(const Engine& engine);
/// Figures that somebody claims and that the shop's own readings, of the same place and stage, contradict.
std::vector<Cause> claim_causes(const Engine& engine, const CountingMap& counts);

/// What is out stops the work; all else is to be looked at.
Cause cause_of(AlertWhat what, std::string subject);

/// "bore 3": a name and the label of its index, which is left out where there is one only.
std::string subject_of(const std::string& name, const Feature& feature, int index);

/// A length for people: to a tenth or a micrometre, finer where it is; with its unit.
std::string shown(Length length, Unit unit);
/// How far past a limit; never shown as nothing.
std::string shown_past(Length past, Unit unit);

}  // namespace tenth
