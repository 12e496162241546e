#include "cli/render/lines.hpp"

#include <span>

#include "cli/render/mark.hpp"
#include "cli/render/text.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

std::string of_gauge(const Json& object) {
  const auto gauge = text(object, "gauge");
  return gauge.empty() ? "" : gauge + ": ";
}

std::string in_brackets(const std::string& words) {
  return words.empty() ? "" : " (" + words + ")";
}

/// A gap that is out on its large side cannot be closed again.
bool is_past_help(const Json& reading) {
  const auto left = length(reading, "to_file_mm");
  return left && *left < Length() && text(reading, "verdict") == "out";
}

std::string to_file_words(const Json& reading, Length left, Unit unit) {
  if (left >= Length()) return with_unit(left, unit) + " to file";
  return with_unit(-left, unit) + " past the aim" + (is_past_help(reading) ? ": another ring" : "");
}

/// "40 s", "6 min", "1 h 20 min": as a person tells it.
std::string duration(std::int64_t seconds) {
  if (seconds < 90) return std::to_string(seconds) + " s";
  const std::int64_t minutes = (seconds + 30) / 60;
  if (minutes < 60) return std::to_string(minutes) + " min";
  return std::to_string(minutes / 60) + " h " + std::to_string(minutes % 60) + " min";
}

}  // namespace

std::string place_line(const Ink& ink, const Json& place, std::size_t before) {
  const auto of = count(place, "of");
  const auto name = place_text(place);
  std::string line = of_gauge(place);
  if (const auto skipped = count(place, "skipped"); name.empty() && of > 0)
    line += skipped > 0 ? "the round is at its end, " + std::to_string(skipped) + " places skipped"
                        : "the round is through";
  else if (name.empty())
    line += "choose one with 'tenth at' or 'tenth round'";
  line += name;
  if (of > 0 && count(place, "skipped") == 0) line += ", " + text(place, "done") + " of " + text(place, "of") + " done";
  if (const auto left = place.find("left_s"); left != place.end() && left->is_number())
    line += ", about " + duration(left->get<std::int64_t>()) + " left";
  if (const auto gauges = texts(place, "to_set"); !gauges.empty())
    line += "; first set " + joined(gauges) + ": 'tenth master " + gauges.front() + " SIZE'";
  if (const auto gauges = texts(place, "recheck"); !gauges.empty())
    line += "; unconfirmed until 'tenth recheck " + gauges.front() + "'" +
            (gauges.size() > 1 ? ", and " + joined(std::span(gauges).subspan(1)) : "");
  if (!text(place, "study").empty()) line += ", by " + text(place, "operator") + ", trial " + text(place, "trial");
  const std::size_t indent = before + kMarkColumns;
  line = wrapped(line + in_brackets(text(place, "where")), indent, indent);
  line.pop_back();  // its end
  return inked(ink, {">", name.empty() ? "no place" : "next", Tone::plain}) + line;
}

std::string reading_line(const Ink& ink, const Json& reading, std::optional<Unit> unit) {
  const Unit shown = unit.value_or(text(reading, "unit") == "in" ? Unit::in : Unit::mm);
  const auto name = place_text(reading);
  std::string line = inked(ink, state_mark(text(reading, "state"))) + of_gauge(reading);
  if (is_past_help(reading)) line += ink(Tone::bad, "cannot be undone: ");
  line += name.empty() ? "no place" : name;
  if (const auto size = length(reading, "size_mm"))
    line += "  " + with_unit(*size, shown);
  else
    line += "  shows " + with_unit(length(reading, "value_mm"), shown);
  if (const auto verdict = text(reading, "verdict"); !verdict.empty()) {
    const auto mark = verdict_mark(verdict);
    line += "  " + ink(mark.tone, mark.sign + " " + mark.word);
  }
  if (const auto doubts = texts(reading, "doubts"); !doubts.empty()) line += "  " + joined(doubts);
  if (const auto file = length(reading, "to_file_mm")) line += "  " + to_file_words(reading, *file, shown);
  if (const auto to_go = length(reading, "to_go_mm")) line += "  " + with_unit(*to_go, shown) + " to go";
  line += ink(Tone::quiet, "  #" + text(reading, "seq"));
  if (const auto before = reading.find("same_as"); before != reading.end() && before->is_number())
    line += ink(Tone::look, "  as #" + before->dump() + " just before: pressed twice? 'tenth undo'");
  return line;
}

std::string answer_line(const Ink& ink, const Json& answer) {
  const auto word = text(answer, "answer");
  const Mark mark = word == "yes"  ? Mark{"+", word, Tone::good}
                    : word == "no" ? Mark{"!", word, Tone::bad}
                                   : Mark{".", word, Tone::look};
  const auto note = text(answer, "note");
  return inked(ink, mark) + place_text(answer) + (note.empty() ? "" : ": " + note);
}

std::string note_line(const Ink& ink, const Json& note) {
  const auto place = place_text(note);
  return inked(ink, {"*", "note", Tone::plain}) + of_gauge(note) + (place.empty() ? "" : place + ": ") +
         text(note, "text") + ink(Tone::quiet, "  #" + text(note, "seq"));
}

std::string temperature_words(const Json& told) {
  const auto features = texts(told, "features");
  std::string words = (features.empty() ? "all parts" : joined(features)) + " at " + text(told, "part");
  if (const auto gauge = text(told, "gauge_at"); !gauge.empty()) words += ", gauge at " + gauge;
  if (const auto within = text(told, "within"); !within.empty()) words += ", within " + within + " K";
  return words;
}

std::string decision_line(const Ink& ink, const Json& decision) {
  const auto remedy = text(decision, "remedy");
  return inked(ink, {"*", "decided", Tone::plain}) + text(decision, "text") +
         in_brackets(remedy.empty() ? "" : "remedy " + remedy) + ": " + text(decision, "reason") +
         ink(Tone::quiet, "  #" + text(decision, "seq"));
}

std::string install_line(const Ink& ink, const Json& install) {
  const auto half = text(install, "half");
  return inked(ink, {"*", "installed", Tone::plain}) + place_text(install) + (half.empty() ? "" : " " + half) + ": " +
         text(install, "part") + ink(Tone::quiet, "  #" + text(install, "seq"));
}

std::string mate_line(const Ink& ink, const Json& mates) {
  const auto inside = text(mates, "inside"), outside = text(mates, "outside");
  std::string line = inked(ink, {"*", "mated", Tone::plain}) + text(mates, "fit") + ": " + inside + " " +
                     text(mates, "label") + " with " + outside + " " + text(mates, "outside_label");
  for (const auto& lost : mates.value("lost", Json::array()))
    line += "; " + inside + " " + text(lost, "label") + " has no mate now";
  if (const auto freed = mates.find("freed"); freed != mates.end() && freed->is_object())
    line += "; " + outside + " " + text(*freed, "label") + " is free";
  return line + ink(Tone::quiet, "  #" + text(mates, "seq"));
}

std::string setup_line(const Ink& ink, const Json& setup) {
  const auto what = text(setup, "setup");
  return inked(ink, {"*", "set up", Tone::plain}) + text(setup, "feature") + (what.empty() ? "" : ": " + what) +
         ink(Tone::quiet, "  #" + text(setup, "seq"));
}

std::string send_line(const Ink& ink, const Json& sent, std::optional<Unit> unit) {
  std::string line = inked(ink, {"*", "sent", Tone::plain}) + joined(texts(sent, "features")) + " to " +
                     text(sent, "to") + ": " + text(sent, "ask");
  const Unit shown = unit.value_or(text(sent, "unit") == "in" ? Unit::in : Unit::mm);
  if (const auto size = length(sent, "size_mm")) line += ", " + with_unit(*size, shown);
  if (const auto within = length(sent, "within_mm"); within && *within > Length())
    line += " within " + with_unit(*within, shown);
  return line + ink(Tone::quiet, "  #" + text(sent, "seq"));
}

std::string receive_line(const Ink& ink, const Json& received) {
  return inked(ink, {"*", "back", Tone::plain}) + joined(texts(received, "features")) +
         ink(Tone::quiet, "  #" + text(received, "seq"));
}

std::string alert_line(const Ink& ink, const Json& alert) {
  return inked(ink, alert_mark(text(alert, "state"), text(alert, "severity"))) + alert_words(alert);
}

std::string alert_words(const Json& alert) {
  const auto note = text(alert, "note");
  const std::string again = count(alert, "again") > 0 ? "still: " : "";
  return again + text(alert, "text") + (note.empty() ? "" : " - " + note) + "  #" + text(alert, "id");
}

}  // namespace tenth::cli
