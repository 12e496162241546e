#include "drivers/frame_decoder.hpp"

#include <algorithm>
#include <utility>

namespace tenth::drivers {

FrameDecoder::FrameDecoder(Framing framing, std::string ask, Parse parse)
    : framing_(std::move(framing)), ask_(std::move(ask)), parse_(std::move(parse)), seeking_(!framing_.start.empty()) {
  for (const std::string& end : framing_.ends) longest_end_ = std::max(longest_end_, end.size());
}

std::vector<Event> FrameDecoder::feed(std::span<const Received> bytes) {
  std::vector<Event> events;
  for (const Received received : bytes)
    if (!lengthens_end(received, events)) take(received, events);
  return events;
}

/// True where the byte goes on with an end that has ended a frame already. Where that comes to nothing, the bytes
/// beyond the end were the beginning of the next frame.
bool FrameDecoder::lengthens_end(Received received, std::vector<Event>& events) {
  if (ended_.empty()) return false;
  const std::string longer = ended_ + static_cast<char>(received.byte);
  const auto begins = [&](const std::string& end) { return end.starts_with(longer); };
  if (!received.damaged && std::any_of(framing_.ends.begin(), framing_.ends.end(), begins)) {
    ended_ = longer;
    const bool whole = std::find(framing_.ends.begin(), framing_.ends.end(), longer) != framing_.ends.end();
    beyond_ = whole ? 0 : beyond_ + 1;
    return true;
  }
  const std::string next = ended_.substr(ended_.size() - std::exchange(beyond_, 0));
  ended_.clear();
  for (const char c : next) take({static_cast<std::uint8_t>(c), false}, events);
  return false;
}

void FrameDecoder::take(Received received, std::vector<Event>& events) {
  keep(received);
  if (seeking_ && tail_.ends_with(framing_.start)) return begin_after_noise(events);
  if (const std::size_t length = end_here(); length > 0) {
    ended_ = tail_.substr(tail_.size() - length);
    bytes_ -= length;
    frame_.resize(std::min(frame_.size(), bytes_));
    end(events);
  } else if (bytes_ >= kMostUntold) {
    const bool seeking = seeking_;
    too_long_ = true;
    end(events);
    too_long_ = !seeking;
    seeking_ = seeking;
  }
}

void FrameDecoder::keep(Received received) {
  if (frame_.size() < kMostRaw) frame_.push_back(static_cast<char>(received.byte));
  ++bytes_;
  damaged_ = damaged_ || received.damaged;
  tail_.push_back(static_cast<char>(received.byte));
  if (received.damaged) tail_.clear();
  const std::size_t most = std::max(longest_end_, framing_.start.size());
  if (tail_.size() > most) tail_.erase(0, tail_.size() - most);
}

/// The length of the longest end that the bytes so far end with; 0 where they end with none.
std::size_t FrameDecoder::end_here() const {
  std::size_t length = 0;
  for (const std::string& end : framing_.ends)
    if (end.size() > length && tail_.ends_with(end)) length = end.size();
  return length;
}

void FrameDecoder::begin_after_noise(std::vector<Event>& events) {
  seeking_ = false;
  bytes_ -= framing_.start.size();
  frame_.resize(std::min(frame_.size(), bytes_));
  if (bytes_ > 0) events.push_back(drop(FaultReason::noise, "bytes before the start of a frame"));
  frame_ = framing_.start;
  bytes_ = framing_.start.size();
  tail_.clear();
}

void FrameDecoder::end(std::vector<Event>& events) {
  const bool too_long = std::exchange(too_long_, false) || bytes_ > framing_.most;
  const bool seeking = std::exchange(seeking_, !framing_.start.empty());
  tail_.clear();
  if (bytes_ == 0) return;
  if (seeking) {
    events.push_back(drop(FaultReason::noise, "bytes without the start of a frame"));
  } else if (damaged_) {
    events.push_back(drop(FaultReason::parity, "a byte was damaged on the wire"));
  } else if (too_long) {
    events.push_back(
        drop(FaultReason::too_long, "more than " + std::to_string(framing_.most) + " bytes without an end"));
  } else if (Parsed parsed = parse_(frame_)) {
    parsed->raw = std::exchange(frame_, {});
    bytes_ = 0;
    events.push_back(std::move(*parsed));
  } else {
    events.push_back(drop(parsed.error().why, std::move(parsed.error().text)));
  }
}

std::vector<Event> FrameDecoder::silence() {
  return break_off("a pause came before the frame ended");
}

std::vector<Event> FrameDecoder::pause() {
  return seeking_ ? break_off("bytes without the start of a frame") : std::vector<Event>();
}

std::vector<Event> FrameDecoder::finish() {
  return break_off("the port closed before the frame ended");
}

std::vector<Event> FrameDecoder::break_off(const std::string& how) {
  std::vector<Event> events;
  if (beyond_ > 0) {  // what would have made an end longer is the beginning of a frame
    bytes_ = beyond_;
    frame_ = ended_.substr(ended_.size() - beyond_);
  }
  if (bytes_ > 0) {
    const FaultReason why = seeking_                              ? FaultReason::noise
                            : too_long_ || bytes_ > framing_.most ? FaultReason::too_long
                                                                  : FaultReason::cut_short;
    events.push_back(drop(why, how));
  }
  tail_.clear();
  ended_.clear();
  beyond_ = 0;
  too_long_ = false;
  seeking_ = !framing_.start.empty();
  return events;
}

Fault FrameDecoder::drop(FaultReason why, std::string text) {
  damaged_ = false;
  return Fault{why, std::move(text), std::exchange(frame_, {}), std::exchange(bytes_, 0)};
}

}  // namespace tenth::drivers
