#include "schema/export/paper/words.hpp"

#include <algorithm>

namespace tenth::paper {
namespace {

/// The fewest places, from the usual ones on, with which two different lengths look different.
int telling_places(Length a, Length b, Unit unit) {
  constexpr int kMostPlaces = 9;
  int places = usual_places(unit);
  while (a != b && places < kMostPlaces && fixed(a, unit, places) == fixed(b, unit, places)) ++places;
  return places;
}

/// As many places as it takes to show the length whole; none where the unit has none that do.
std::optional<int> whole_places(Length length, Unit unit) {
  constexpr int kMostPlaces = 7;  // a ten-millionth of an inch is a whole number of picometres
  const std::int64_t one = length_of(unit).pm();
  Wide scaled = length.pm();
  for (int places = 0; places <= kMostPlaces; ++places, scaled *= 10)
    if (scaled % one == 0) return places;
  return std::nullopt;
}

}  // namespace

std::string figure(const std::optional<Length>& length, Unit unit) {
  return length ? fixed(*length, unit, usual_places(unit)) : std::string();
}

std::string whole_figure(const std::optional<Length>& length, Unit unit) {
  if (!length) return "";
  const int usual = usual_places(unit);
  return fixed(*length, unit, std::max(usual, whole_places(*length, unit).value_or(usual + 1)));
}

std::string spaced(std::string_view feature_or_fit) {
  std::string words(feature_or_fit);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

std::string heading(std::string_view feature_or_fit) {
  std::string words = spaced(feature_or_fit);
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z') words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

std::string limits_words(const Limits& limits, Unit unit) {
  if (limits.lower && limits.upper) return whole_figure(limits.lower, unit) + " to " + whole_figure(limits.upper, unit);
  if (limits.lower) return "at least " + whole_figure(limits.lower, unit);
  if (limits.upper) return "at most " + whole_figure(limits.upper, unit);
  return "no limits";
}

std::string gauge_words(const Reading& reading) {
  return reading.gauge.value_or(reading.source == Source::imported ? "from a table" : "by hand");
}

std::string reason_words(const Reason& reason, Unit unit) {
  if (!reason.value || !reason.limit || !reason.side) return spaced(reason.what);
  const Length value = *reason.value, limit = *reason.limit;
  const Length beyond = *reason.side == Side::lower ? limit - value : value - limit;
  const int places = telling_places(value, limit, unit);
  const std::string side(name(*reason.side));
  const std::string from = (side == "lower") == (beyond > Length()) ? "below" : "above";
  const std::string distance = beyond == Length() ? "on" : fixed(beyond.magnitude(), unit, places) + " " + from;
  return spaced(reason.what) + " " + fixed(value, unit, places) + " is " + distance + " the " + side + " limit " +
         fixed(limit, unit, places);
}

std::string day_of(const std::string& time) {
  return time.substr(0, time.find('T'));
}

std::string time_of_day(const std::string& time) {
  const std::size_t from = time.find('T');
  return from == std::string::npos ? "" : time.substr(from + 1, time.find('.') - from - 1);
}

std::string short_time(const std::string& time) {
  return day_of(time) + " " + time_of_day(time);
}

std::string verdict_sentence(const std::optional<Verdict>& verdict) {
  if (!verdict) return "Nothing has been judged yet.";
  switch (*verdict) {
    case Verdict::in:
      return "Every figure lies within the limits asked for.";
    case Verdict::doubtful:
      return "Nothing is outside its limits, but some figures lie so near a limit that the measurement cannot decide.";
    case Verdict::incomplete:
      return "Nothing measured is outside its limits, but measurements, answers or mates are missing.";
    case Verdict::out:
      return "Something lies outside the limits asked for.";
  }
  return "";
}

}  // namespace tenth::paper
