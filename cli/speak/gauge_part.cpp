#include "cli/render/text.hpp"
#include "cli/speak/telling.hpp"

namespace tenth::cli {

std::optional<Part> setting_part(const Telling& telling, const Json& event) {
  const std::string gauge = spoken_subject(telling, text(event, "gauge"));
  const Json good = event.value("good", Json());
  if (text(event, "state") == "void")
    return Part{Rank::suspect, Sound::suspect, phrase(telling, "not_set", {{"gauge", gauge}})};
  if (!text(event, "reason").empty()) return std::nullopt;  // its master was corrected, nothing was pressed
  if (good == false) {
    const std::string distance = spoken_distance(telling, length(event, "drift_mm").value_or(Length()));
    return Part{Rank::stop, Sound::out, phrase(telling, "drifted", {{"gauge", gauge}, {"distance", distance}})};
  }
  if (good == true) return Part{Rank::stored, Sound::stored, phrase(telling, "checked", {{"gauge", gauge}})};
  const std::string size = spoken_size(telling, length(event, "master_mm").value_or(Length()));
  return Part{Rank::stored, Sound::stored, phrase(telling, "set", {{"gauge", gauge}, {"size", size}})};
}

std::optional<Part> gauge_part(const Telling& telling, const Json& event) {
  const Speech::Words blanks = {{"gauge", spoken_subject(telling, text(event, "gauge"))}};
  const auto state = text(event, "state");
  if (state == "open") return Part{Rank::word, std::nullopt, phrase(telling, "gauge_open", blanks)};
  if (state != "gone" && state != "silent" && state != "flooding") return std::nullopt;
  return Part{Rank::suspect, Sound::suspect, phrase(telling, "gauge_" + state, blanks)};
}

std::optional<Part> fault_part(const Telling& telling, const Json& event) {
  const auto why = text(event, "why");
  if (why == "not_stored") return Part{Rank::stop, Sound::out, phrase(telling, "not_stored")};
  const std::string gauge = spoken_subject(telling, text(event, "gauge"));
  if (why == "not_set") return Part{Rank::suspect, Sound::suspect, phrase(telling, "not_set", {{"gauge", gauge}})};
  return Part{Rank::suspect, Sound::suspect,
              phrase(telling, "fault", {{"gauge", gauge}, {"why", spoken_name(why, telling.speech)}})};
}

}  // namespace tenth::cli
