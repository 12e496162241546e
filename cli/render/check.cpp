#include "cli/render/check.hpp"

#include <algorithm>
#include <map>
#include <ostream>

#include "cli/render/check_line.hpp"
#include "cli/render/mark.hpp"
#include "cli/render/text.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

constexpr std::size_t kColumns = 80;
constexpr std::size_t kMostName = 19;  // leaves a fit room for "0.0005 under" within 80 columns

/// A part of the report: its heading, what stands above the figures, what stands between them, and its lines.
struct Section {
  std::string heading;
  std::vector<std::string> titles, before;
  std::vector<CheckLine> lines;
};

std::string name_text(const CheckLine& line) {
  const std::string label = line.label.empty() ? "" : " " + line.label;
  const auto room = kMostName - std::min(width(label), kMostName - 1);
  return cut(cut(line.name, room) + label, kMostName);
}

/// An index is told only where a name has several.
void drop_lone_labels(std::vector<CheckLine>& lines) {
  std::map<std::string, int> seen;
  for (const auto& line : lines) ++seen[line.name];
  for (auto& line : lines)
    if (seen[line.name] == 1) line.label.clear();
}

std::vector<Section> sections_of(const Json& report, Unit unit) {
  std::vector<Section> all = {{"Sizes", {"mean", "least", "most"}, {"  ", "  ", "  "}, {}},
                              {"Clearances", {"least", "most", "from", "to"}, {"  ", " .. ", "  ", ".."}, {}},
                              {"Back from the shop", {"least", "most", "from", "to"}, {"  ", " .. ", "  ", ".."}, {}},
                              {"Sameness", {"spread", "limit"}, {"  ", "  "}, {}},
                              {"Checks", {}, {}, {}}};
  for (const auto& feature : report.at("features")) all[0].lines.push_back(size_line(feature, unit));
  for (const auto& fit : report.at("fits")) all[1].lines.push_back(fit_line(fit, unit));
  for (const auto& part : report.value("returned", Json::array())) all[2].lines.push_back(returned_line(part, unit));
  for (const auto& spread : report.at("spreads")) all[3].lines.push_back(spread_line(spread, unit));
  for (const auto& check : report.at("checks")) all[4].lines.push_back(answer_check_line(check));
  for (auto& section : all) drop_lone_labels(section.lines);
  return all;
}

std::size_t name_columns(const std::vector<Section>& sections) {
  std::size_t most = 0;
  for (const auto& section : sections)
    for (const auto& line : section.lines) most = std::max(most, width(name_text(line)));
  return most;
}

/// So wide that the points of a column stand below each other.
std::vector<std::size_t> figure_columns(const Section& section) {
  std::vector<std::size_t> columns;
  for (const auto& title : section.titles) columns.push_back(width(title));
  for (const auto& line : section.lines)
    for (std::size_t i = 0; i < columns.size(); ++i) columns[i] = std::max(columns[i], width(line.figures.at(i)));
  return columns;
}

std::string figures_text(const std::vector<std::string>& figures, const std::vector<std::size_t>& columns,
                         const std::vector<std::string>& before) {
  std::string text;
  for (std::size_t i = 0; i < columns.size(); ++i) text += before[i] + right(figures.at(i), columns[i]);
  return text;
}

/// As many remarks as there is room for. The first is cut rather than left out where the line is not in.
std::string remarks_text(const std::vector<std::string>& remarks, std::size_t room, bool in) {
  std::string text;
  for (const auto& remark : remarks) {
    const std::string longer = text.empty() ? remark : text + ", " + remark;
    if (width(longer) > room) return text.empty() && !in ? cut(remark, room) : text;
    text = longer;
  }
  return text;
}

void print_section(Context& context, const Section& section, std::size_t name_width) {
  if (section.lines.empty()) return;
  auto& out = context.world.out;
  const auto columns = figure_columns(section);
  std::vector<std::string> blank = section.before;
  for (auto& between : blank) between.assign(between.size(), ' ');
  auto heading = section.heading;
  if (!columns.empty())
    heading = left(heading, kMarkColumns + name_width) + figures_text(section.titles, columns, blank);
  out << '\n' << context.ink(Tone::quiet, heading) << '\n';
  for (const auto& line : section.lines) {
    const auto mark = verdict_mark(line.verdict);
    const auto middle = left(name_text(line), name_width) + figures_text(line.figures, columns, section.before);
    const auto used = kMarkColumns + width(middle) + 2;
    const auto remarks = remarks_text(line.remarks, kColumns - std::min(used, kColumns - 1), line.verdict == "in");
    out << inked(context.ink, mark) << middle << (remarks.empty() ? "" : "  ") << context.ink(mark.tone, remarks)
        << '\n';
  }
}

using Counts = std::map<std::string, int>;

Counts counts_of(const std::vector<Section>& sections) {
  Counts seen;
  for (const auto& section : sections)
    for (const auto& line : section.lines) ++seen[line.verdict];
  return seen;
}

std::string counts_text(Counts seen) {
  std::vector<std::string> parts;
  for (const char* verdict : {"out", "incomplete", "doubtful", "in"})
    if (seen[verdict] > 0) parts.push_back(std::to_string(seen[verdict]) + " " + verdict);
  return joined(parts);
}

std::string ready_text(const Json& item) {
  const auto told = text(item, "text");
  return told.empty() ? text(item, "act") + " " + place_text(item) : told;
}

std::string next_text(const Json& report) {
  const auto& ready = report.at("ready");
  if (!ready.empty()) return ready_text(ready.front());
  return text(report, "verdict") == "in" ? "hand it over with 'tenth export --format html'" : "look at the lines above";
}

/// Repeats that do not fit the others at their place: shown, and counting all the same.
void print_outliers(Context& context, const Json& report, Unit unit) {
  for (const auto& outlier : report.value("outliers", Json::array()))
    context.world.out << context.ink(Tone::look, "? outlier    " + place_text(outlier) + " " +
                                                     with_unit(length(outlier, "size_mm"), unit) + ", one of " +
                                                     text(outlier, "among") + " repeats  #" + text(outlier, "seq"))
                      << '\n';
}

/// What is true of the engine beside its figures: parts that are elsewhere, readings that no check confirms yet.
void print_standing(Context& context, const Json& report) {
  auto& out = context.world.out;
  for (const auto& away : report.value("away", Json::array()))
    out << context.ink(Tone::look, "? away       " + text(away, "feature") + " is at " + text(away, "to") + ": " +
                                       text(away, "ask"))
        << '\n';
  for (const auto& open : report.value("unconfirmed", Json::array()))
    out << context.ink(Tone::look, "? unconfirmed " + text(open, "readings") + " readings of " + text(open, "gauge") +
                                       ", until 'tenth recheck " + text(open, "gauge") + "'")
        << '\n';
}

bool has_round(const Json& report) {
  const auto& features = report.at("features");
  return std::any_of(features.begin(), features.end(),
                     [](const Json& each) { return length(each, "out_of_round_mm"); });
}

void print_whole(Context& context, const Json& report, const std::vector<Section>& sections) {
  const auto mark = verdict_mark(text(report, "verdict"));
  auto seen = counts_of(sections);
  const auto counts = counts_text(seen);
  const auto whole = mark.sign + " " + mark.word + (counts.empty() ? "" : " (" + counts + ")");
  const auto next = "next: " + next_text(report);
  const bool one_line = width(whole) + 2 + width(next) <= kColumns;
  auto& out = context.world.out;
  out << '\n';
  if (seen["doubtful"] > 0)
    out << context.ink(Tone::quiet, "? doubtful: a limit lies within what the measurement is sure of, +-") << '\n';
  if (has_round(report)) out << context.ink(Tone::quiet, "round: two-point, so odd lobes are not seen") << '\n';
  out << context.ink(mark.tone, whole) << (one_line ? "; " : "\n  ") << next << '\n';
}

}  // namespace

void show_check(Context& context, const Json& report) {
  const Unit unit = context.unit_for(report.value("unit", Json()));
  const auto sections = sections_of(report, unit);
  auto& out = context.world.out;
  const auto title = text(report, "title");
  out << text(report, "engine") << (title.empty() ? "" : ": " + title) << ", in "
      << (unit == Unit::in ? "inches" : "mm") << '\n';
  const auto name_width = name_columns(sections);
  for (const auto& section : sections) print_section(context, section, name_width);
  print_outliers(context, report, unit);
  print_standing(context, report);
  print_whole(context, report, sections);
}

void show_ready(Context& context, const Json& ready) {
  auto& out = context.world.out;
  if (ready.empty()) out << "nothing is left to do\n";
  for (const auto& item : ready) {
    out << "> " << ready_text(item) << '\n';
    if (const auto places = texts(item, "places"); !places.empty())
      out << context.ink(Tone::quiet, "    " + cut(joined(places), kColumns - 4)) << '\n';
  }
}

}  // namespace tenth::cli
