#pragma once

#include <string>
#include <vector>

#include "cli/speak/utterance.hpp"
#include "rules/length.hpp"
#include "schema/speech/speech.hpp"

namespace tenth::cli {

/// What the words for one event are made with.
struct Telling {
  const Speech& speech;
  Level level = Level::full;
  Unit unit = Unit::mm;             ///< to say lengths in
  std::string last_part;            ///< what was spoken of last: "bore three"
  const std::vector<Json>& moment;  ///< all that happened at once
};

std::string phrase(const Telling& telling, std::string_view name, const Speech::Words& blanks = {});

/// "bore three", and "top thrust": the part that an event is about, and where on it.
std::string spoken_part(const Telling& telling, const Json& event);
std::string spoken_spot(const Telling& telling, const Json& event);
std::string spoken_place(const Telling& telling, const Json& event);
/// "main clearance three": what an alert is about.
std::string spoken_subject(const Telling& telling, const std::string& subject);

std::string spoken_size(const Telling& telling, Length size);
std::string spoken_distance(const Telling& telling, Length distance);

/// Whether one of the moment's events has these values.
bool happened(const Telling& telling, const Json& values);

/// What is said of one event.
struct Part {
  Rank rank = Rank::word;
  std::optional<Sound> sound;
  std::string text;
};

// Nothing where nobody needs to hear it.
std::optional<Part> reading_part(const Telling& telling, const Json& event);
std::optional<Part> change_part(const Telling& telling, const Json& event);
std::optional<Part> answer_part(const Telling& telling, const Json& event);
std::optional<Part> place_part(const Telling& telling, const Json& event);
std::optional<Part> setting_part(const Telling& telling, const Json& event);
std::optional<Part> gauge_part(const Telling& telling, const Json& event);
std::optional<Part> fault_part(const Telling& telling, const Json& event);
std::optional<Part> alert_part(const Telling& telling, const Json& event);
std::optional<Part> alerts_part(const Telling& telling, const Json& event);

}  // namespace tenth::cli
