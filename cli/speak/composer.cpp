#include "cli/speak/composer.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "cli/render/text.hpp"

namespace tenth::cli {
namespace {

using Make = std::optional<Part> (*)(const Telling& telling, const Json& event);

/// Of the connection, which `Follow` tells of.
std::optional<Part> gone_part(const Telling& telling, const Json&) {
  return Part{Rank::stop, Sound::out, phrase(telling, "daemon_gone")};
}
std::optional<Part> back_part(const Telling& telling, const Json&) {
  return Part{Rank::stored, Sound::stored, phrase(telling, "daemon_back")};
}

constexpr std::pair<std::string_view, Make> kMakers[] = {
    {"reading", reading_part}, {"change", change_part}, {"answer", answer_part}, {"place", place_part},
    {"setting", setting_part}, {"gauge", gauge_part},   {"fault", fault_part},   {"alert", alert_part},
    {"alerts", alerts_part},   {"gone", gone_part},     {"back", back_part}};

std::optional<Part> part_of(const Telling& telling, const Json& event) {
  const auto kind = text(event, "event");
  for (const auto& [name, make] : kMakers)
    if (kind == name) return make(telling, event);
  return std::nullopt;
}

/// The part joins what is said already; the same words are said once.
void join(Utterance& utterance, const Part& part) {
  if (part.rank > utterance.rank || !utterance.sound) utterance.sound = part.sound ? part.sound : utterance.sound;
  // A round that is through is heard unless there is worse.
  if (part.sound == Sound::round_done && utterance.rank <= Rank::stored) utterance.sound = part.sound;
  utterance.rank = std::max(utterance.rank, part.rank);
  if (utterance.text.find(part.text) != std::string::npos) return;
  utterance.text += (utterance.text.empty() ? "" : ". ") + part.text;
}

/// Alerts of one moment are one notice.
void show(Utterance& utterance, const Part& part) {
  if (!utterance.notice) utterance.notice.emplace();
  utterance.notice->urgent |= part.rank == Rank::stop;
  utterance.notice->text += (utterance.notice->text.empty() ? "" : ". ") + part.text;
}

}  // namespace

Telling Composer::telling(const Json& event, const std::vector<Json>& moment) const {
  Unit unit = last_unit_;
  if (text(event, "unit") == "in") unit = Unit::in;
  if (text(event, "unit") == "mm") unit = Unit::mm;
  return {speech_, level_, unit_.value_or(unit), last_part_, moment};
}

void Composer::remember(const Json& event, const Telling& telling) {
  if (text(event, "event") != "reading") return;
  last_unit_ = telling.unit;
  last_part_ = spoken_part(telling, event);
}

Utterance Composer::compose(const std::vector<Json>& moment) {
  std::array<std::vector<Part>, 3> parts;  // alerts to stop for, readings to stop for, all else
  Utterance utterance;
  for (const Json& event : moment) {
    const Telling telling = this->telling(event, moment);
    remember(event, telling);
    const auto part = part_of(telling, event);
    if (!part) continue;
    const bool alert = text(event, "event").starts_with("alert");
    if (alert && alerts_shown_) show(utterance, *part);
    if (!alert || alerts_heard_) parts[part->rank != Rank::stop ? 2 : alert ? 0 : 1].push_back(*part);
  }
  for (const auto& group : parts)
    for (const Part& part : group) join(utterance, part);
  if (level_ == Level::tones) utterance.text.clear();
  return utterance;
}

}  // namespace tenth::cli
