#include "cli/render/lines.hpp"

#include "cli/render/mark.hpp"
#include "cli/render/text.hpp"

namespace tenth::cli {
namespace {

std::string of_gauge(const Json& object) {
  const auto gauge = text(object, "gauge");
  return gauge.empty() ? "" : gauge + ": ";
}

std::string in_brackets(const std::string& words) {
  return words.empty() ? "" : " (" + words + ")";
}

}  // namespace

std::string place_line(const Ink& ink, const Json& place) {
  const auto of = count(place, "of");
  const auto name = place_text(place);
  std::string line = inked(ink, {">", name.empty() ? "no place" : "next", Tone::plain}) + of_gauge(place);
  if (name.empty() && of > 0)
    line += "the round is through";
  else if (name.empty())
    line += "choose one with 'tenth at' or 'tenth round'";
  line += name;
  if (of > 0) line += ", " + text(place, "done") + " of " + text(place, "of") + " done";
  if (const auto turn = place.find("study"); turn != place.end() && turn->is_object())
    line += ", by " + text(*turn, "by") + ", trial " + text(*turn, "trial");
  return line + in_brackets(text(place, "where"));
}

std::string reading_line(const Ink& ink, const Json& reading, std::optional<Unit> unit) {
  const Unit shown = unit.value_or(text(reading, "unit") == "in" ? Unit::in : Unit::mm);
  const auto name = place_text(reading);
  std::string line = inked(ink, state_mark(text(reading, "state"))) + of_gauge(reading);
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
  if (const auto to_go = length(reading, "to_go_mm")) line += "  " + with_unit(*to_go, shown) + " to go";
  return line + ink(Tone::quiet, "  #" + text(reading, "seq"));
}

std::string answer_line(const Ink& ink, const Json& answer) {
  const auto word = text(answer, "answer");
  const Mark mark = word == "yes"  ? Mark{"+", word, Tone::good}
                    : word == "no" ? Mark{"!", word, Tone::bad}
                                   : Mark{".", word, Tone::look};
  const auto note = text(answer, "note");
  return inked(ink, mark) + place_text(answer) + (note.empty() ? "" : ": " + note);
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

std::string alert_line(const Ink& ink, const Json& alert) {
  return inked(ink, alert_mark(text(alert, "state"), text(alert, "severity"))) + alert_words(alert);
}

std::string alert_words(const Json& alert) {
  const auto note = text(alert, "note");
  return text(alert, "text") + (note.empty() ? "" : " - " + note) + "  #" + text(alert, "id");
}

}  // namespace tenth::cli
