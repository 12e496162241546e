#include <algorithm>
#include <array>

#include "cli/render/text.hpp"
#include "cli/speak/telling.hpp"

namespace tenth::cli {
namespace {

/// "Stop. main clearance three is out, two tenths under".
std::string words_of(const Telling& telling, const Json& event) {
  constexpr std::array kKnown = {"out", "doubtful", "suspect", "drift", "overdue", "temperature", "gauge", "claim"};
  const auto what = text(event, "what");
  const bool known = std::find(kKnown.begin(), kKnown.end(), what) != kKnown.end();
  std::string words = phrase(telling, "alert_" + (known ? what : "other"),
                             {{"subject", spoken_subject(telling, text(event, "subject"))}});
  const auto value = length(event, "value_mm"), limit = length(event, "limit_mm");
  if (what != "out" || !value || !limit || *value == *limit) return words;
  return words + ", " +
         phrase(telling, *value > *limit ? "over" : "under", {{"distance", spoken_distance(telling, *value - *limit)}});
}

}  // namespace

/// What ended or was cleared is heard from those who did it. A suspect reading of this moment has said it itself.
std::optional<Part> alert_part(const Telling& telling, const Json& event) {
  if (text(event, "state") != "open") return std::nullopt;
  const bool again = count(event, "again") > 0;
  if (!again && text(event, "what") == "suspect" && happened(telling, {{"event", "reading"}, {"state", "suspect"}}))
    return std::nullopt;
  const bool stop = text(event, "severity") == "stop";
  const std::string words = words_of(telling, event);
  return Part{stop ? Rank::stop : Rank::suspect, stop ? Sound::out : Sound::suspect,
              again ? phrase(telling, "again", {{"said", words}}) : words};
}

std::optional<Part> alerts_part(const Telling& telling, const Json& event) {
  const bool stop = count(event, "stop") > 0;
  return Part{stop ? Rank::stop : Rank::suspect, stop ? Sound::out : Sound::suspect,
              phrase(telling, "alerts", {{"count", spoken_count(count(event, "count"), telling.speech.numbers)}})};
}

}  // namespace tenth::cli
