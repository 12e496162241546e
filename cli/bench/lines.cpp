#include "cli/bench/lines.hpp"

#include <algorithm>
#include <array>

#include "cli/render/text.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

const Json kNone;

/// The newest reading; null where none was taken.
const Json& last_of(const Json& bench) {
  const auto found = bench.find("last");
  return found == bench.end() || found->empty() ? kNone : found->front();
}

bool chosen(const Json& place) {
  return !text(place, "feature").empty() || count(place, "of") > 0;
}

std::string done_of(const Json& place) {
  if (count(place, "of") == 0) return "";
  const auto left_s = place.find("left_s");
  const auto skipped = count(place, "skipped");
  return "   " + text(place, "done") + " of " + text(place, "of") + " done" +
         (skipped > 0 ? ", " + std::to_string(skipped) + " skipped" : "") +
         (left_s == place.end() || !left_s->is_number() ? "" : ", " + age_text(left_s->get<std::int64_t>()) + " left");
}

std::string state_sign(const std::string& state) {
  using Sign = std::pair<std::string_view, std::string_view>;
  constexpr std::array kSigns = {Sign{"in", "+"},   Sign{"out", "!"},  Sign{"doubtful", "?"}, Sign{"suspect", "?"},
                                 Sign{"part", "."}, Sign{"read", "*"}, Sign{"claimed", "\""}};
  for (const auto& [name, sign] : kSigns)
    if (state == name) return std::string(sign);
  return "-";  // unread
}

bool is_suspect(const Json& last) {
  return last.is_object() && text(last, "state") == "suspect";
}

std::string counted(std::int64_t number, const std::string& one) {
  return number == 0 ? "" : std::to_string(number) + " " + one + (number == 1 ? "" : "s") + "  ";
}

std::string gauge_words(const Json& gauge) {
  const auto state = text(gauge, "state");
  std::string words = (state == "open" ? "+ " : "! ") + text(gauge, "name") + " " + state;
  if (const auto why = text(gauge, "why"); !why.empty() && state != "open") words += ": " + why;
  if (const auto awaits = text(gauge, "awaits"); !awaits.empty()) return words + ", waits for its master";
  const auto setting = gauge.find("setting");
  if (setting != gauge.end() && setting->is_object())
    words += ", set " + age_text(count(*setting, "age_s")) + " ago";
  else if (text(gauge, "reads") == "deviation")
    words += ", not set";
  return gauge.value("overdue", false) ? words + ", calibration overdue" : words;
}

}  // namespace

std::string header_line(const Json& bench) {
  if (text(bench, "engine").empty()) return "no engine in use: tenth engine use NAME";
  std::string line;
  for (const char* key : {"engine", "title", "stage", "operator"})
    if (const auto word = text(bench, key); !word.empty()) line += (line.empty() ? "" : "  ") + word;
  return line;
}

const Json& place_in_view(const Json& bench) {
  const auto places = bench.find("places");
  if (places == bench.end()) return kNone;
  const auto gauge = text(last_of(bench), "gauge");
  for (const Json& place : *places)
    if (!gauge.empty() && text(place, "gauge") == gauge && chosen(place)) return place;
  for (const Json& place : *places)
    if (chosen(place)) return place;
  return kNone;
}

std::string part_words(const Json& place) {
  std::string words = text(place, "feature");
  std::replace(words.begin(), words.end(), '_', ' ');
  const auto label = text(place, "label"), index = label.empty() ? text(place, "index") : label;
  return words + (index.empty() ? "" : " " + index);
}

std::string spot_words(const Json& place) {
  const auto level = text(place, "level"), axis = text(place, "axis");
  return level + (level.empty() || axis.empty() ? "" : " ") + axis;
}

Line verdict_line(const Json& last) {
  if (!last.is_object()) return {"nothing was read yet", Look::faint};
  const auto state = text(last, "state"), size = text(last, "size_verdict"), all = text(last, "verdict");
  if (is_suspect(last)) return {"? SUSPECT: " + joined(texts(last, "why")), Look::alarm};
  if (state == "void") return {"x void: " + text(last, "reason"), Look::strong};
  const auto against = text(last, "against");
  std::string words = against.empty() ? "" : ", " + against;
  if (all == "out" && size != "out") words += "; " + part_words(last) + " is out";
  if (size == "out") return {"! OUT" + words, Look::alarm};
  if (size == "doubtful") return {"? doubtful" + words, Look::strong};
  return {(size == "in" ? "+ in" : "+ kept") + words, all == "out" ? Look::alarm : Look::strong};
}

Line next_line(const Json& bench) {
  if (const Json& last = last_of(bench); is_suspect(last))
    return {"measure again, or: tenth keep " + text(last, "seq") + " --reason TEXT", Look::strong};
  const Json& place = place_in_view(bench);
  if (!place.is_object()) return {};
  const auto next = text(place, "next");
  const bool through = text(place, "feature").empty(), round = count(place, "of") > 0;
  const std::string words = !next.empty() ? "next  " + next
                            : through     ? "the round is through"
                            : round       ? "the last place of the round"
                                          : "";
  return {words + done_of(place), Look::strong};
}

std::string counts_words(const Json& bench) {
  const auto alerts = static_cast<std::int64_t>(bench.value("alerts", Json::array()).size());
  return counted(alerts, "alert") + counted(count(bench, "suspects"), "suspect");
}

std::vector<Line> other_places(const Json& bench) {
  std::vector<Line> lines;
  const Json& shown = place_in_view(bench);
  for (const Json& place : bench.value("places", Json::array())) {
    if (!chosen(place) || place == shown) continue;
    const auto gauge = text(place, "gauge"), words = text(place, "words");
    lines.push_back({(gauge.empty() ? "common" : gauge) + ": " + (words.empty() ? "the round is through" : words) +
                     done_of(place)});
  }
  return lines;
}

std::vector<Line> warnings(const Json& bench) {
  std::vector<Line> stops, others;
  for (const Json& place : bench.value("places", Json::array())) {
    for (const auto& gauge : texts(place, "to_set"))
      others.push_back({"? set it first: tenth master " + gauge + " SIZE", Look::strong});
    for (const auto& gauge : texts(place, "recheck"))
      others.push_back({"? check it now: tenth recheck " + gauge, Look::strong});
  }
  for (const Json& alert : bench.value("alerts", Json::array())) {
    const bool stop = text(alert, "severity") == "stop";
    (stop ? stops : others)
        .push_back({(stop ? "! STOP " : "? look ") + text(alert, "text") + "  #" + text(alert, "id"),
                    stop ? Look::alarm : Look::strong});
  }
  stops.insert(stops.end(), others.begin(), others.end());
  if (const auto suspects = count(bench, "suspects"); suspects > 0)
    stops.push_back({"? " + counted(suspects, "suspect reading") + "keep, move or void", Look::strong});
  return stops;
}

Line gauges_line(const Json& bench) {
  Line line;
  for (const Json& gauge : bench.value("gauges", Json::array())) {
    line.text += (line.text.empty() ? "" : "   ") + gauge_words(gauge);
    if (text(gauge, "state") != "open") line.look = Look::strong;
  }
  if (line.text.empty()) line.text = "no gauge: tenth gauge find";
  return line;
}

std::string plan_line(const Json& feature, const Json& place, bool away) {
  std::string line = part_words({{"feature", text(feature, "feature")}}) + " ";
  for (const Json& index : feature.value("indexes", Json::array())) {
    const auto label = text(index, "label"), number = label.empty() ? text(index, "index") : label;
    const bool here =
        text(place, "feature") == text(feature, "feature") && text(place, "index") == text(index, "index");
    line += "  " + number + (number.empty() ? "" : " ") + (here ? ">" : "") +
            (away ? "^" : state_sign(text(index, "state"))) + (index.value("unconfirmed", false) ? "~" : "");
  }
  return line;
}

}  // namespace tenth::cli
