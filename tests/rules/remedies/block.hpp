#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "rules/remedies/remedy.hpp"
#include "tests/rules/workpiece.hpp"

namespace tenth::testing {

/// A block of our own invention: mains with shells on their journals, pistons in their bores, ring gaps; in inches.
class Block {
 public:
  Workpiece work;
  Stock stock;

  explicit Block(int count) : count_(count) {
    work.spec.unit = Unit::in;
    work.spec.features.reserve(8);
    work.spec.fits.reserve(4);
  }

  /// Bearings measured with their shells in, and journals.
  Fit& mains(std::string_view lower, std::string_view upper) {
    work.feature("main_bearing", Kind::inside, {}, count_);
    work.feature("main_journal", Kind::outside, {}, count_);
    return work.fit("main_clearance", "main_bearing", "main_journal", limits(lower, upper));
  }
  Fit& pistons(std::string_view lower, std::string_view upper) {
    work.feature("bore", Kind::inside, {}, count_);
    work.feature("piston", Kind::outside, {}, count_);
    return work.fit("piston_clearance", "bore", "piston", limits(lower, upper));
  }

  void read(const std::string& feature, const std::vector<std::string>& sizes) {
    for (std::size_t i = 0; i < sizes.size(); ++i) work.read(feature + "/" + std::to_string(i + 1), sizes[i]);
  }
  void fitted(int index, const std::string& upper, const std::string& lower) {
    work.engine.installed[{"main_bearing", index}] = {"", upper, lower};
  }
  void fitted_everywhere(const std::string& upper, const std::string& lower) {
    for (int index = 1; index <= count_; ++index) fitted(index, upper, lower);
  }

  Shell& shell(const std::string& id, Half half, std::string_view wall, int count) {
    Shell shell;
    shell.id = id;
    shell.feature = "main_bearing";
    shell.half = half;
    shell.count = count;
    if (!wall.empty()) shell.wall = Wall{len(wall), len(wall)};
    stock.shells.push_back(std::move(shell));
    return stock.shells.back();
  }
  Grind& grind() {
    Grind grind;
    grind.feature = "main_journal";
    grind.standard = limits("2.7490 in", "2.7500 in");
    grind.any_size = true;
    grind.tolerance = len("0.0002 in");
    grind.cleanup = len("0.0005 in");
    stock.grinds.push_back(grind);
    return stock.grinds.back();
  }

  RemedyList remedies() { return tenth::remedies(work.done(), &stock); }
  RemedyList without_stock() { return tenth::remedies(work.done(), nullptr); }

 private:
  int count_;
};

inline const Remedy* find(const RemedyList& list, RemedyKind kind) {
  const auto found = std::ranges::find(list.remedies, kind, &Remedy::kind);
  return found == list.remedies.end() ? nullptr : &*found;
}

/// The reasons given, as "FIT-OR-FEATURE INDEX: WHY", one a line.
inline std::string reasons(const RemedyList& list) {
  std::string text;
  for (const NoRemedy& none : list.none)
    text += none.fit + none.feature + " " + std::to_string(none.index) + ": " + none.why + "\n";
  return text;
}

}  // namespace tenth::testing
