#include "cli/render/event.hpp"

#include <array>
#include <utility>

#include "cli/render/gauge.hpp"
#include "cli/render/lines.hpp"
#include "cli/render/mark.hpp"
#include "cli/render/text.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

using Teller = std::string (*)(const Ink& ink, const Json& event, std::optional<Unit> unit);

std::string hello(const Ink& ink, const Json& event, std::optional<Unit>) {
  return ink(Tone::quiet, "- watching   the ledger holds " + text(event, "seq") + " entries; Ctrl-C ends this");
}

std::string place(const Ink& ink, const Json& event, std::optional<Unit>) {
  return place_line(ink, event);
}

std::string change(const Ink& ink, const Json& event, std::optional<Unit>) {
  std::string line = inked(ink, state_mark(text(event, "state"))) + "reading " + text(event, "seq");
  if (const auto doubts = texts(event, "doubts"); !doubts.empty()) line += "  " + joined(doubts);
  if (const auto reason = text(event, "reason"); !reason.empty()) line += ": " + reason;
  return line + ink(Tone::quiet, "  #" + text(event, "by_seq"));
}

std::string answer(const Ink& ink, const Json& event, std::optional<Unit>) {
  return answer_line(ink, event) + ink(Tone::quiet, "  #" + text(event, "seq"));
}

std::string note(const Ink& ink, const Json& event, std::optional<Unit>) {
  return note_line(ink, event);
}

std::string gauge(const Ink& ink, const Json& event, std::optional<Unit>) {
  const auto why = text(event, "why");
  return gauge_mark(ink, event) + "    " + text(event, "gauge") + (why.empty() ? "" : ": " + why);
}

std::string setting(const Ink& ink, const Json& event, std::optional<Unit> unit) {
  const Unit shown = unit.value_or(text(event, "unit") == "in" ? Unit::in : Unit::mm);
  const bool bad = event.value("good", Json()) == false;
  const bool zero = event.value("sets_zero", Json(true)) != false;
  if (text(event, "state") == "void")
    return inked(ink, {"!", zero ? "not set" : "no check", Tone::bad}) + text(event, "gauge") + ": void, " +
           text(event, "reason") + "; say 'tenth " + (zero ? "master" : "recheck") + "' and press again";
  if (const auto reason = text(event, "reason"); !reason.empty())
    return inked(ink, {"*", "corrected", Tone::plain}) + text(event, "gauge") + ": setting " + text(event, "seq") +
           " was made on " + with_unit(length(event, "master_mm"), shown) + ", " + reason;
  const Mark mark = bad ? Mark{"!", "drifted", Tone::bad} : Mark{"+", zero ? "set" : "checked", Tone::good};
  std::string line = inked(ink, mark) + text(event, "gauge") + " on " + master_text(event, shown) + ", shows " +
                     with_unit(length(event, "shown_mm"), shown);
  if (const auto drift = length(event, "drift_mm")) line += ", drift " + with_unit(*drift, shown);
  return line;
}

std::string engine(const Ink& ink, const Json& event, std::optional<Unit>) {
  return inked(ink, {"*", "engine", Tone::plain}) + text(event, "engine") + " is in use";
}

std::string study(const Ink& ink, const Json& event, std::optional<Unit> unit) {
  const Unit shown = unit.value_or(text(event, "unit") == "in" ? Unit::in : Unit::mm);
  std::string line = inked(ink, {"+", "study", Tone::good}) + text(event, "study") + ", " + text(event, "done") +
                     " of " + text(event, "of");
  if (const auto master = length(event, "master_mm"))
    line += ": on " + with_unit(*master, shown) + ", shows " + with_unit(length(event, "shown_mm"), shown);
  if (const auto next = length(event, "next_mm")) line += "; next on " + with_unit(*next, shown);
  return line;
}

std::string stage(const Ink& ink, const Json& event, std::optional<Unit>) {
  return inked(ink, {"*", "stage", Tone::plain}) + text(event, "stage") + ": " + joined(texts(event, "features"));
}

std::string spec(const Ink& ink, const Json& event, std::optional<Unit>) {
  return inked(ink, {"*", "spec", Tone::plain}) + text(event, "engine") +
         " is held against a new version: " + text(event, "reason") + ink(Tone::quiet, "  #" + text(event, "seq"));
}

std::string temperature(const Ink& ink, const Json& event, std::optional<Unit>) {
  return inked(ink, {"*", "warmth", Tone::plain}) + temperature_words(event);
}

std::string decide(const Ink& ink, const Json& event, std::optional<Unit>) {
  return decision_line(ink, event);
}

std::string install(const Ink& ink, const Json& event, std::optional<Unit>) {
  return install_line(ink, event);
}

std::string mate(const Ink& ink, const Json& event, std::optional<Unit>) {
  return mate_line(ink, event);
}

std::string setup(const Ink& ink, const Json& event, std::optional<Unit>) {
  return setup_line(ink, event);
}

std::string send(const Ink& ink, const Json& event, std::optional<Unit> unit) {
  return send_line(ink, event, unit);
}

std::string receive(const Ink& ink, const Json& event, std::optional<Unit>) {
  return receive_line(ink, event);
}

std::string imported(const Ink& ink, const Json& event, std::optional<Unit>) {
  const auto claimed_by = text(event, "claimed_by");
  return inked(ink, {"*", "imported", Tone::plain}) + text(event, "rows") + " rows of " + text(event, "file") +
         (claimed_by.empty() ? "" : ", claimed by " + claimed_by) + ink(Tone::quiet, "  #" + text(event, "seq"));
}

std::string attach(const Ink& ink, const Json& event, std::optional<Unit>) {
  return inked(ink, {"*", "attached", Tone::plain}) + text(event, "file") +
         ink(Tone::quiet, "  #" + text(event, "seq"));
}

std::string alert(const Ink& ink, const Json& event, std::optional<Unit>) {
  return alert_line(ink, event);
}

/// Many at once.
std::string alerts(const Ink& ink, const Json& event, std::optional<Unit>) {
  return inked(ink, alert_mark("open", count(event, "stop") > 0 ? "stop" : "look")) + text(event, "text");
}

std::string fault(const Ink& ink, const Json& event, std::optional<Unit>) {
  std::string line = inked(ink, {"!", "fault", Tone::look}) + text(event, "gauge") + ": " + text(event, "why");
  if (const auto why = text(event, "text"); !why.empty()) line += ", " + why;
  if (const auto raw = text(event, "raw"); !raw.empty()) line += " [" + raw + "]";
  if (const auto times = count(event, "count"); times > 1) line += " " + std::to_string(times) + " times";
  return line;
}

std::string lost(const Ink& ink, const Json& event, std::optional<Unit>) {
  return inked(ink, {"!", "cut off", Tone::bad}) + "read too slowly; go on with --since " + text(event, "seq");
}

using Told = std::pair<std::string_view, Teller>;

constexpr std::array kTellers = {Told{"hello", hello},
                                 Told{"temperature", temperature},
                                 Told{"reading", reading_line},
                                 Told{"change", change},
                                 Told{"answer", answer},
                                 Told{"note", note},
                                 Told{"place", place},
                                 Told{"gauge", gauge},
                                 Told{"setting", setting},
                                 Told{"engine", engine},
                                 Told{"study", study},
                                 Told{"stage", stage},
                                 Told{"spec", spec},
                                 Told{"decide", decide},
                                 Told{"install", install},
                                 Told{"mate", mate},
                                 Told{"setup", setup},
                                 Told{"send", send},
                                 Told{"receive", receive},
                                 Told{"import", imported},
                                 Told{"attach", attach},
                                 Told{"alert", alert},
                                 Told{"alerts", alerts},
                                 Told{"fault", fault},
                                 Told{"lost", lost}};

}  // namespace

std::string event_text(const Ink& ink, const Json& event, std::optional<Unit> unit) {
  const auto kind = text(event, "event");
  for (const auto& [name, tell] : kTellers)
    if (kind == name) return tell(ink, event, unit);
  return "- " + canonical(event);
}

}  // namespace tenth::cli
