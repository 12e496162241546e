#include "cli/bench/screen.hpp"

#include <algorithm>

#include "cli/bench/drawing.hpp"
#include "cli/bench/letters.hpp"
#include "cli/bench/lines.hpp"
#include "cli/bench/open.hpp"
#include "cli/render/text.hpp"

namespace tenth::cli {
namespace {

constexpr int kLeastRows = 24, kLeastColumns = 80;
constexpr int kEdge = 8;  ///< columns on either side of the size, for its limits
const std::string kHelp = "n next  b back  u undo  q quit";
const std::string kLegend = "+ in  ! out  ? look  . part  - unread  > here";

void draw_header(Drawing& drawing, const Json& bench) {
  drawing.grid.write(0, 0, header_line(bench), Look::strong);
  drawing.grid.fill(1, drawing.rule(), Look::faint);
  if (const auto open = open_words(bench); !open.empty() && !drawing.state.stale_s) {
    drawing.grid.write(1, 0, open, Look::strong);
    drawing.grid.write(1, static_cast<int>(width(open)), " ");
  }
  drawing.row = 2;
  if (!drawing.state.stale_s) return drawing.grid.write_right(0, "  " + counts_words(bench) + "live");
  drawing.grid.write_right(0, "  ! STALE", Look::alarm);
  drawing.grid.write(
      1, 0, "! the daemon is gone: this is " + age_text(*drawing.state.stale_s) + " old, and nothing is stored now ",
      Look::alarm);
}

void draw_place(Drawing& drawing, const Json& bench, const Json& place) {
  const int columns = drawing.grid.columns();
  if (!place.is_object()) {
    write_big(drawing, "no place", 0, columns, false);
    drawing.grid.write(drawing.row++, 0, "choose one: tenth at FEATURE ..., tenth round FEATURE");
    return;
  }
  const auto part = part_words(place), spot = spot_words(place);
  write_big(drawing, part.empty() ? "through" : part, 0, columns, false);
  const auto where = text(place, "where"), open = open_at(bench, place);
  if (open.empty())
    drawing.grid.write(drawing.row++, 0, where);
  else
    drawing.grid.write(drawing.row++, 0, open + (where.empty() ? "" : "  " + where), Look::alarm);
  if (!spot.empty()) write_big(drawing, spot, 0, columns, false);
}

/// A limit beside the size: its word above its number.
void write_limit(Drawing& drawing, int row, bool right, const std::string& word, const std::string& number) {
  if (number.empty()) return;
  for (const auto& [down, words] : {std::pair{0, word}, {1, number}}) {
    if (right)
      drawing.grid.write_right(row + down, words, Look::strong);
    else
      drawing.grid.write(row + down, 0, words, Look::strong);
  }
}

void draw_last(Drawing& drawing, const Json& last) {
  const Json shown = last.is_object() ? last.value("shown", Json::object()) : Json::object();
  const auto words = last.is_object() ? text(last, "words") : "",
             unit = last.is_object() ? text(last, "shown_unit") : "";
  drawing.grid.fill(drawing.row, drawing.rule(), Look::faint);
  drawing.grid.write(drawing.row++, 0, words.empty() ? "last " : "last: " + words + ", " + unit + " ", Look::strong);
  const int middle = drawing.row + kLetterRows * drawing.scale / 2 - 1;
  const auto size = text(shown, "size"), target = text(shown, "target");
  write_limit(drawing, middle, false, "low", text(shown, "low"));
  write_limit(drawing, middle, true, "high", text(shown, "high"));
  write_big(drawing, size.empty() ? "-" : size, kEdge, drawing.grid.columns() - kEdge, true);
  const Line verdict = verdict_line(last);
  drawing.grid.write(drawing.row, 0, verdict.text, verdict.look);
  if (!target.empty()) drawing.grid.write_right(drawing.row, "  target " + target);
  ++drawing.row;
}

/// The feature that is in view, or all others.
std::vector<Line> plan_lines(const Json& bench, bool in_view) {
  const Json& place = place_in_view(bench);
  const auto here = place.is_object() ? text(place, "feature") : "";
  std::vector<Line> lines;
  for (const Json& feature : bench.value("plan", Json::array()))
    if ((text(feature, "feature") == here) == in_view)
      lines.push_back({plan_line(feature, place, is_away(bench, feature))});
  return lines;
}

void draw_below(Drawing& drawing, const Json& bench) {
  const Line gauges = gauges_line(bench);
  if (drawing.state.message.empty()) {
    drawing.grid.write(drawing.bottom, 0, kHelp, Look::faint);
    drawing.grid.write_right(drawing.bottom--, kLegend, Look::faint);
  } else {
    drawing.grid.write(drawing.bottom--, 0, drawing.state.message, Look::strong);
  }
  drawing.grid.write(drawing.bottom--, 0, gauges.text, gauges.look);
  write_lines(drawing, {next_line(bench)});
  // Other places, the plan and what is open have the room that warnings leave.
  write_lines(drawing, warnings(bench));
  write_lines(drawing, other_places(bench));
  write_lines(drawing, plan_lines(bench, true));
  write_lines(drawing, open_lines(bench));
  write_lines(drawing, plan_lines(bench, false));
}

/// For a small terminal: the same in plain lines.
void draw_small(Drawing& drawing, const Json& bench, const Json& last) {
  const Json& place = place_in_view(bench);
  if (drawing.state.stale_s) write_lines(drawing, {{"! STALE " + age_text(*drawing.state.stale_s), Look::alarm}});
  write_lines(drawing, {{header_line(bench), Look::strong},
                        {place.is_object() ? part_words(place) + " " + spot_words(place) : "no place", Look::strong}});
  if (last.is_object())
    write_lines(drawing, {{"last: " + text(last, "words") + " " + text(last.value("shown", Json::object()), "size")}});
  write_lines(drawing, {verdict_line(last)});
  write_lines(drawing, warnings(bench));
  write_lines(drawing, open_lines(bench));
  write_lines(drawing,
              {next_line(bench), gauges_line(bench), {drawing.state.message.empty() ? kHelp : drawing.state.message}});
}

}  // namespace

Json gauge_in_view(const Json& bench) {
  const Json& place = place_in_view(bench);
  return place.is_object() ? place.value("gauge", Json()) : Json();
}

Grid draw_bench(const Json& bench, const ScreenState& state) {
  Drawing drawing{Grid(state.rows, state.columns), state};
  drawing.bottom = state.rows - 1;
  const Json all = bench.value("last", Json::array()), last = all.empty() ? Json() : all.front();
  if (state.rows < kLeastRows || state.columns < kLeastColumns) {
    draw_small(drawing, bench, last);
  } else {
    drawing.scale = std::min(state.rows / kLeastRows, state.columns / kLeastColumns);
    draw_header(drawing, bench);
    draw_place(drawing, bench, place_in_view(bench));
    draw_last(drawing, last);
    draw_below(drawing, bench);
  }
  return drawing.grid;
}

}  // namespace tenth::cli
