#include <algorithm>
#include <set>

#include "rules/plausible.hpp"
#include "tests/rules/published.hpp"

namespace tenth {
namespace {

using testing::clearance;
using testing::Ends;
using testing::len;
using testing::limits;
using testing::Published;
using testing::published;
using testing::Workpiece;

std::vector<Published> all_rows() {
  std::vector<Published> rows;
  for (const Published& engine : published().at("engines"))
    for (Published row : engine.at("items")) {
      row["engine"] = engine.at("id");
      rows.push_back(std::move(row));
    }
  return rows;
}

std::string title(const Published& row) {
  return row.at("engine").get<std::string>() + " " + row.at("feature").get<std::string>();
}

/// A figure as the page prints it; none where it is absent or cannot be read as a length.
std::optional<Length> printed(const Published& row, const char* field) {
  const Published& cells = row.at("printed");
  if (!cells.contains(field)) return std::nullopt;
  const auto length = parse_length(cells.at(field).get<std::string>() + cells.at("unit").get<std::string>(), {});
  return length ? std::optional(*length) : std::nullopt;
}

/// A figure as it is believed.
std::optional<Length> believed(const Published& row, const char* field) {
  if (!row.at("use_mm").contains(field)) return std::nullopt;
  return len(row.at("use_mm").at(field).get<std::string>());
}

/// The fields of a row that are flagged as suspect.
std::set<std::string> flagged(const Published& row) {
  std::set<std::string> fields;
  for (const Published& issue : row.value("issues", Published::array())) fields.insert(issue.at("field"));
  return fields;
}

const char* const kFields[] = {"new_min", "new_max", "limit"};

TEST(PublishedLimits, WhatIsPrintedIsBelievedOrFlagged) {
  std::size_t cells = 0;
  for (const Published& row : all_rows())
    for (const char* field : kFields) {
      if (!row.at("printed").contains(field)) continue;
      ++cells;
      if (printed(row, field) != believed(row, field)) {
        EXPECT_TRUE(flagged(row).contains(field)) << title(row) << " " << field;
      }
    }
  EXPECT_GT(cells, 300U);
}

/// Whether the three figures of a row can stand together: new sizes in order, the wear limit on the worn side of them.
bool in_order(const Published& row, std::optional<Length> (*figure)(const Published&, const char*)) {
  const auto least = figure(row, "new_min"), most = figure(row, "new_max"), limit = figure(row, "limit");
  const auto kind = row.at("limit_kind").get<std::string>();
  if (least && most && *least > *most) return false;
  if (!limit || kind == "max_amount_of_wear") return true;
  if (kind == "min_size") return !least || *limit <= *least;
  return !most || *limit >= *most;
}

TEST(PublishedLimits, WhatIsBelievedStandsTogether) {
  for (const Published& row : all_rows()) EXPECT_TRUE(in_order(row, believed)) << title(row);
}

TEST(PublishedLimits, RowsThatContradictThemselvesAreFlagged) {
  std::vector<std::string> wrong;
  for (const Published& row : all_rows())
    if (!in_order(row, printed)) {
      wrong.push_back(title(row));
      EXPECT_FALSE(flagged(row).empty()) << title(row);
    }
  // A wear limit of 0.093 in above a new 0.00942; one of 0.03 mm below a new 0.066; one of 0.0003 in below a new
  // 0.0025.
  EXPECT_EQ(wrong, (std::vector<std::string>{"A rod.shell_thickness", "B rod.clearance", "H pin.clearance_in_piston"}));
}

const Published& row_of(const Published& fit, const char* part) {
  for (const Published& engine : published().at("engines"))
    if (engine.at("id") == fit.at("engine"))
      for (const Published& row : engine.at("items"))
        if (row.at("feature") == fit.at(part)) return row;
  throw std::runtime_error("no such row");
}

Ends new_sizes(const Published& row) {
  return {believed(row, "new_min").value(), believed(row, "new_max").value()};
}

/// What the sizes of the parts give for a printed clearance.
Ends from_sizes(const Published& fit) {
  return clearance(new_sizes(row_of(fit, "inside")), new_sizes(row_of(fit, "outside")),
                   fit.contains("shell") ? new_sizes(row_of(fit, "shell")) : Ends{});
}

TEST(PublishedLimits, SizesGiveThePrintedClearancesOrTheRowSaysWhyNot) {
  for (const Published& fit : published().at("fits")) {
    const Published& row = row_of(fit, "clearance");
    const Ends sizes = from_sizes(fit), page{printed(row, "new_min").value(), printed(row, "new_max").value()};
    const auto expected = fit.at("printed_is").get<std::string>();
    const bool narrower = sizes.least < page.least && page.most < sizes.most;
    const std::string found = sizes == page ? "equal" : narrower ? "narrower" : "misprint";
    EXPECT_EQ(found, expected) << fit;
    if (found == "misprint") {
      EXPECT_TRUE(flagged(row).contains("new_min") && flagged(row).contains("new_max")) << fit;
    }
  }
}

/// One part of this size, judged by the row's wear limit.
std::optional<Verdict> judged(const Published& row, Length size) {
  const bool least = row.at("limit_kind") == "min_size";
  Workpiece work;
  Limits wear;
  (least ? wear.lower : wear.upper) = believed(row, "limit");
  work.feature("part", least ? Kind::outside : Kind::inside, wear);
  work.read("part/1", size);
  return work.judged("part").verdict;
}

TEST(PublishedLimits, APartExactlyOnItsWearLimitIsInAndAPicometrePastItOut) {
  int judged_rows = 0;
  for (const Published& row : all_rows()) {
    const auto kind = row.at("limit_kind").get<std::string>();
    const auto limit = believed(row, "limit");
    if ((kind != "max_size" && kind != "min_size") || !limit) continue;
    ++judged_rows;
    const Length past = Length::from_pm(kind == "min_size" ? -1 : 1);
    EXPECT_EQ(judged(row, *limit), Verdict::in) << title(row);
    EXPECT_EQ(judged(row, *limit + past), Verdict::out) << title(row);
    for (const char* field : {"new_min", "new_max"}) {
      EXPECT_EQ(judged(row, believed(row, field).value()), Verdict::in) << title(row);
    }
  }
  EXPECT_GT(judged_rows, 30);
}

std::optional<Verdict> form_judged(Length limit, Length taper) {
  Workpiece work;
  Feature& part = work.feature("part", Kind::outside, {});
  part.levels = {"front", "rear"};
  part.taper = limit;
  work.read("part/1/front", "60");
  work.read("part/1/rear", len("60") - taper);
  return work.judged("part").verdict;
}

TEST(PublishedLimits, AFormExactlyOnItsLimitIsIn) {
  for (const Published& row : all_rows()) {
    const auto limit = believed(row, "limit");
    if (row.at("limit_kind") != "max_form" || !limit) continue;
    EXPECT_EQ(form_judged(*limit, *limit), Verdict::in) << title(row);
    EXPECT_EQ(form_judged(*limit, *limit + Length::from_pm(1)), Verdict::out) << title(row);
  }
}

/// The doubts about this size of an outside or inside part with the row's new sizes as limits.
std::vector<Doubt> doubts(const Published& row, Kind kind, Length size) {
  Feature part;
  part.kind = kind;
  part.limits = {believed(row, "new_min"), believed(row, "new_max")};
  return doubts_of_size(part, size, {});
}

bool among(Doubt doubt, const std::vector<Doubt>& doubts) {
  return std::ranges::find(doubts, doubt) != doubts.end();
}

TEST(PublishedLimits, SlipsAtEveryPublishedSizeAreSeen) {
  int sizes = 0;
  for (const Published& row : all_rows()) {
    const auto fresh = believed(row, "new_min");
    if (!fresh || !believed(row, "new_max") || *fresh < len("10")) continue;
    ++sizes;
    EXPECT_TRUE(doubts(row, Kind::outside, *fresh).empty()) << title(row);
    EXPECT_TRUE(among(Doubt::tenfold, doubts(row, Kind::outside, *fresh * 10))) << title(row);
    EXPECT_TRUE(among(Doubt::inch_mm, doubts(row, Kind::outside, Length::from_pm(fresh->pm() * 254 / 10))))
        << title(row);
  }
  EXPECT_GT(sizes, 50);
}

TEST(PublishedLimits, AThimbleTurnAtEveryPublishedJournalIsSeen) {
  int journals = 0;
  for (const Published& row : all_rows()) {
    const auto feature = row.at("feature").get<std::string>();
    if (!feature.ends_with("pin.diameter") && !feature.ends_with("main.diameter")) continue;
    if (!believed(row, "new_max")) continue;
    ++journals;
    const Length middle = Length::from_pm((believed(row, "new_min")->pm() + believed(row, "new_max")->pm()) / 2);
    for (const char* turn : {"0.025 in", "-0.025 in", "0.5 mm", "-0.5 mm"})
      EXPECT_TRUE(among(Doubt::turn, doubts(row, Kind::outside, middle + len(turn)))) << title(row) << turn;
  }
  EXPECT_GE(journals, 8);
}

/// The printed sizes of a step, which may be flagged.
Ends step_sizes(const Published& ladder, const Published& step) {
  return testing::ends(step.at("new"), ladder.at("unit").get<std::string>());
}

Length undersize(const Published& ladder, const Published& step) {
  return len(step.at("undersize").get<std::string>() + ladder.at("unit").get<std::string>());
}

TEST(Ladders, AJournalGroundByAStepIsThatMuchSmallerOrTheStepIsFlagged) {
  for (const Published& ladder : published().at("ladders")) {
    if (!ladder.at("feature").get<std::string>().starts_with("crank")) continue;
    const Ends standard = step_sizes(ladder, ladder.at("steps").front());
    for (const Published& step : ladder.at("steps")) {
      const Length ground = undersize(ladder, step);
      const bool fits = step_sizes(ladder, step) == Ends{standard.least - ground, standard.most - ground};
      EXPECT_NE(fits, step.contains("issue")) << step;
    }
  }
}

TEST(Ladders, ShellsOfAStepKeepTheClearanceOfAJournalGroundByIt) {
  const Ends housing{len("2.8747 in"), len("2.8752 in")}, journal{len("2.6230 in"), len("2.6240 in")};  // of our own
  for (const Published& ladder : published().at("ladders")) {
    if (!ladder.at("feature").get<std::string>().ends_with("shell_thickness")) continue;
    const Ends standard = clearance(housing, journal, step_sizes(ladder, ladder.at("steps").front()));
    for (const Published& step : ladder.at("steps")) {
      const Length ground = undersize(ladder, step);
      const Ends now = clearance(housing, {journal.least - ground, journal.most - ground}, step_sizes(ladder, step));
      EXPECT_TRUE(now == standard) << step;
    }
  }
}

}  // namespace
}  // namespace tenth
