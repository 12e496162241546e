#include <algorithm>

#include "cli/render/text.hpp"
#include "cli/speak/telling.hpp"
#include "rules/joined.hpp"
#include "rules/reading.hpp"

namespace tenth::cli {
namespace {

bool is_not_kept(const std::string& word) {
  const auto doubt = doubt_named(word);
  return doubt && !can_be_kept(*doubt);
}

/// The remedy for the doubts that `keep` does not answer; the first that applies.
std::string remedy_of(const Telling& telling, const std::vector<std::string>& doubts, const Json& event) {
  const auto has = [&](Doubt doubt) { return std::ranges::find(doubts, name(doubt)) != doubts.end(); };
  if (has(Doubt::no_place)) return phrase(telling, "remedy_place");
  if (has(Doubt::no_setting)) return phrase(telling, "remedy_setting");
  if (std::ranges::any_of(doubts, is_not_kept)) return phrase(telling, "remedy_again");
  return phrase(telling, "remedy", {{"seq", spoken_count(count(event, "seq"), telling.speech.numbers)}});
}

Part suspect(const Telling& telling, const Json& event) {
  const auto doubts = texts(event, "doubts");
  std::vector<std::string> why;
  for (const std::string& doubt : doubts) {
    const auto found = telling.speech.doubts.find(doubt);
    why.push_back(found == telling.speech.doubts.end() ? spoken_name(doubt, telling.speech) : found->second);
  }
  const auto size = length(event, "size_mm");
  const Speech::Words blanks = {
      {"place", spoken_place(telling, event)},
      {"size", spoken_size(telling, size ? *size : length(event, "value_mm").value_or(Length()))},
      {"why", joined(why)},
      {"remedy", remedy_of(telling, doubts, event)}};
  return {Rank::suspect, Sound::suspect,
          phrase(telling, telling.level == Level::full ? "suspect" : "suspect_short", blanks)};
}

/// What is left of the way to a target, or of a gap that is filed, which is said whatever the level.
std::string left(const Telling& telling, const Json& event) {
  const auto to_file = length(event, "to_file_mm"), to_go = length(event, "to_go_mm");
  const auto left = to_file ? to_file : telling.level == Level::full ? to_go : std::nullopt;
  if (!left || *left == Length()) return "";
  const bool past = *left < Length();
  const char* const name = to_file ? (past ? "filed_past" : "to_file") : past ? "past_target" : "to_go";
  return ". " + phrase(telling, name, {{"distance", spoken_distance(telling, *left)}});
}

std::string kept(const Telling& telling, const Json& event) {
  const auto size = length(event, "size_mm");
  const std::string said = spoken_size(telling, size ? *size : length(event, "value_mm").value_or(Length()));
  const bool full = telling.level == Level::full;
  return (full ? phrase(telling, "kept", {{"place", spoken_place(telling, event)}, {"size", said}}) : said) +
         left(telling, event);
}

/// Gauges to be set before a round, or checked after it.
std::string gauges_to(const Telling& telling, std::string_view name, const std::vector<std::string>& gauges) {
  std::string all;
  for (const std::string& gauge : gauges)
    all += ". " + phrase(telling, name, {{"gauge", spoken_subject(telling, gauge)}});
  return all;
}

}  // namespace

std::optional<Part> reading_part(const Telling& telling, const Json& event) {
  if (text(event, "source") == "import") return std::nullopt;  // a table is brought in at the keyboard
  if (text(event, "state") == "suspect") return suspect(telling, event);
  const std::string said = kept(telling, event);
  if (count(event, "same_as") > 0)
    return Part{Rank::suspect, Sound::suspect, phrase(telling, "same_again") + ". " + said};
  const auto verdict = text(event, "verdict");
  if (verdict != "out" && verdict != "doubtful") return Part{Rank::stored, Sound::stored, said};
  const bool out = verdict == "out";
  const Part judged{out ? Rank::stop : Rank::suspect, out ? Sound::out : Sound::suspect, said};
  // An alert of this moment says it better; one that was told before says nothing now.
  if (happened(telling, {{"event", "alert"}, {"what", verdict}, {"state", "open"}})) return judged;
  const std::string subject = spoken_part(telling, event);
  return Part{judged.rank, judged.sound, phrase(telling, "alert_" + verdict, {{"subject", subject}}) + ". " + said};
}

/// Readings that are doubted later are spoken of by their alert; a move or a corrected master says nothing.
std::optional<Part> change_part(const Telling& telling, const Json& event) {
  const auto act = text(event, "act");
  if (act == "void") return Part{Rank::stored, Sound::stored, phrase(telling, "voided")};
  if (act == "keep") return Part{Rank::stored, Sound::stored, phrase(telling, "kept_after_all")};
  return std::nullopt;
}

std::optional<Part> answer_part(const Telling& telling, const Json& event) {
  return Part{
      Rank::stored, Sound::stored,
      phrase(telling, "answered",
             {{"place", spoken_part(telling, event)}, {"answer", spoken_name(text(event, "answer"), telling.speech)}})};
}

/// What comes next. Briefly: only what is another than the part that was read last.
std::optional<Part> place_part(const Telling& telling, const Json& event) {
  const auto gauge = text(event, "gauge");
  const std::string spoken_gauge = spoken_subject(telling, gauge);
  if (text(event, "feature").empty()) {
    if (count(event, "of") == 0) return std::nullopt;
    const auto skipped = count(event, "skipped");
    return Part{
        Rank::stored, Sound::round_done,
        phrase(telling, gauge.empty() ? "round_done" : "round_done_for", {{"gauge", spoken_gauge}}) +
            (skipped > 0 ? ". " + phrase(telling, "skipped", {{"count", spoken_count(skipped, telling.speech.numbers)}})
                         : "") +
            gauges_to(telling, "recheck", texts(event, "recheck"))};
  }
  const std::string part = spoken_part(telling, event), spot = spoken_spot(telling, event);
  const bool same = telling.level == Level::brief && part == telling.last_part && !spot.empty();
  const bool plain = gauge.empty() || telling.level == Level::brief;
  const std::string next = phrase(telling, plain ? "next" : "next_for",
                                  {{"place", same ? spot : spoken_place(telling, event)}, {"gauge", spoken_gauge}});
  return Part{Rank::word, std::nullopt, next + gauges_to(telling, "to_set", texts(event, "to_set"))};
}

}  // namespace tenth::cli
