#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/judge.hpp"
#include "rules/remedies/stock.hpp"

namespace tenth {

/// `part`: spare parts alone; `match` may take spares too. `combined`: two of the others, one after the other.
enum class RemedyKind { shells, match, part, grind, hone, file, combined };
/// What undoing takes: nothing, a new part, or it cannot be undone.
enum class Undo { free, part, never };

/// One bearing half taken out and another put in, by their ids.
struct HalfStep {
  int index = 0;
  std::string label;
  Half half = Half::upper;
  std::string out, in;
  friend bool operator==(const HalfStep&, const HalfStep&) = default;
};

/// An inside part gets another mate: the outside part of another position, or a spare.
struct TakeStep {
  int index = 0;
  std::string label;
  int now = 0;       ///< outside index; 0: it had no mate
  int take = 0;      ///< outside index; 0 with a spare
  std::string part;  ///< the spare's id
  friend bool operator==(const TakeStep&, const TakeStep&) = default;
};

/// Material taken off: sizes before and after. `low` and `high` are what the tolerance allows (grinding only).
struct CutStep {
  int index = 0;
  std::string label;
  Length now, ask, low, high;
  Length off;  ///< how much, never negative
  friend bool operator==(const CutStep&, const CutStep&) = default;
};

/// How one index of the fit (of the gap, where a gap is filed) would be judged afterwards.
struct After {
  int index = 0;
  std::optional<Length> min, mean, max, uncertainty;
  std::optional<Verdict> verdict;
  std::string label = {};
};

/// Something that would bring a fit, or a gap, in. It advises and changes nothing by itself. Every figure under `after`
/// comes from the sizes as they would be, put back through `judge_fit` or `judge_feature`.
struct Remedy {
  std::string id;  ///< "r1", "r2", … in the order of the list
  RemedyKind kind = RemedyKind::shells;
  std::string fit;      ///< empty: a gap without a fit
  std::string feature;  ///< what is ground, honed or filed; else empty
  Undo undo = Undo::free;
  bool enough = false;              ///< every index would be in
  int in = 0, of = 0;               ///< how many would be in
  Length off_target;                ///< Σ |mean − target| afterwards
  int moved = 0;                    ///< bearing halves, or mates, that change
  std::optional<Length> undersize;  ///< of a grinding to a step
  std::vector<HalfStep> halves;     ///< of a grinding to a step: the shells that go with it
  std::vector<TakeStep> takes;
  std::vector<CutStep> cuts;
  std::vector<std::string> parts;  ///< of a combined remedy: the ids of its two
  std::vector<After> after;
  std::string text;  ///< what to do, in both units; what is never undone begins with "Cannot be undone"
  std::vector<std::string> cautions;
};

/// Why something out has no remedy of a certain sort: which limit forbids it, and by how much.
struct NoRemedy {
  std::string fit, feature;  ///< one of the two, the other empty
  int index = 0;             ///< 0: all of it
  std::string why;
  std::string label = {};  ///< of the index
};

struct RemedyList {
  std::vector<Remedy> remedies;  ///< enough before not enough, then by what undoing takes
  std::vector<NoRemedy> none;
  bool suffices = false;  ///< nothing is out, or for everything out there is a remedy that is enough
};

/// What would bring the engine's fits and gaps in. Without a stock only what needs none: matching and filing.
RemedyList remedies(const Engine& engine, const Stock* stock);

std::string_view name(RemedyKind);
std::string_view name(Undo);

}  // namespace tenth
