#include "drivers/listening.hpp"

#include <algorithm>

#include "drivers/catalog.hpp"

namespace tenth::drivers {

namespace {

constexpr std::size_t kMostShown = 256;
constexpr std::size_t kStream = 8;  // so many numbers without a pause are no presses

LineSettings line_of(int baud, int bits, Parity parity, int stop) {
  LineSettings line;
  line.baud = baud;
  line.bits = bits;
  line.parity = parity;
  line.stop = stop;
  return line;
}

/// The settings seen on gauges, the usual ones first (common practice).
std::vector<LineSettings> usual_lines() {
  return {line_of(9600, 8, Parity::none, 1),  line_of(4800, 7, Parity::even, 2),   line_of(9600, 7, Parity::even, 1),
          line_of(2400, 7, Parity::even, 2),  line_of(1200, 7, Parity::even, 1),   line_of(19200, 8, Parity::none, 1),
          line_of(38400, 8, Parity::none, 1), line_of(115200, 8, Parity::none, 1), line_of(57600, 8, Parity::none, 1)};
}

/// Stop bits are the sender's affair: a receiver cannot tell.
bool hears_alike(LineSettings a, LineSettings b) {
  a.stop = b.stop;
  a.flow = b.flow;
  a.dtr = b.dtr;
  a.rts = b.rts;
  return a == b;
}

/// Formats that speak without being asked.
bool speaks_first(const Profile& profile, bool on_keys) {
  if (on_keys) return profile.speaks == Speaks::keys;
  const bool spoken =
      profile.speaks == Speaks::line || profile.speaks == Speaks::bcd13 || profile.speaks == Speaks::bin24;
  return spoken && profile.trigger.by != SentBy::poll;
}

Candidate explain(const Tried& tried, const LineSettings& line, const std::vector<std::vector<Received>>& bursts) {
  Candidate candidate{tried.name, line, {}, {}, 0, true, hears_alike(tried.profile.line, line), true};
  const auto decoder = make_decoder(tried.profile, Unit::mm, Wire::serial);
  std::vector<Event> events;
  const auto add = [&](std::vector<Event> more) { events.insert(events.end(), more.begin(), more.end()); };
  for (const auto& burst : bursts) {
    add(decoder->feed(burst));
    add(decoder->silence());
  }
  for (const Event& event : events) {
    const auto* const read = std::get_if<Measurement>(&event);
    if (read == nullptr) {
      ++candidate.faults;
      continue;
    }
    candidate.numbers.push_back(read->text + (read->unit_in_frame ? " " + std::string(name(read->unit)) : ""));
    candidate.unit_named = candidate.unit_named && read->unit_in_frame;
    const bool known =
        std::find(candidate.channels.begin(), candidate.channels.end(), read->channel) != candidate.channels.end();
    if (!read->channel.empty() && !known) candidate.channels.push_back(read->channel);
  }
  const bool streams = candidate.numbers.size() >= kStream * bursts.size();
  candidate.as_sent = streams == (tried.profile.trigger.by == SentBy::continuous);
  return candidate;
}

/// The shortest name is the plain form of a format.
bool better(const Candidate& a, const Candidate& b) {
  if (a.fits() != b.fits()) return a.fits();
  if (a.own_line != b.own_line) return a.own_line;
  if (a.as_sent != b.as_sent) return a.as_sent;
  if (a.numbers.size() != b.numbers.size()) return a.numbers.size() > b.numbers.size();
  return std::pair(a.name.size(), a.name) < std::pair(b.name.size(), b.name);
}

}  // namespace

Listening::Listening(std::vector<Tried> tried, bool on_keys) : tried_(std::move(tried)), lines_(usual_lines()) {
  std::erase_if(tried_, [on_keys](const Tried& each) { return !speaks_first(each.profile, on_keys); });
  for (const Tried& each : tried_) {
    const auto alike = [&](const LineSettings& line) { return hears_alike(line, each.profile.line); };
    if (std::none_of(lines_.begin(), lines_.end(), alike)) lines_.push_back(each.profile.line);
  }
}

bool Listening::take(const std::vector<Received>& burst) {
  if (burst.empty()) return true;
  bytes_ += burst.size();
  std::string shown;
  for (std::size_t i = 0; i < std::min(burst.size(), kMostShown); ++i)
    shown.push_back(static_cast<char>(burst[i].byte));
  shown_.push_back(std::move(shown));
  bursts_.push_back(burst);
  const auto found = candidates();
  if (!found.empty() && found.front().fits()) {
    ++explained_;
    return true;
  }
  explained_ = 0;
  bursts_.clear();
  at_ = (at_ + 1) % lines_.size();
  return false;
}

std::vector<Candidate> Listening::candidates() const {
  std::vector<Candidate> all;
  for (const Tried& each : tried_) {
    if (!hears_alike(each.profile.line, line()) && each.profile.line != LineSettings()) continue;
    Candidate candidate = explain(each, line(), bursts_);
    if (!candidate.numbers.empty()) all.push_back(std::move(candidate));
  }
  std::sort(all.begin(), all.end(), better);
  return all;
}

}  // namespace tenth::drivers
