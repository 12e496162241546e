#include "drivers/frame_decoder.hpp"

#include <utility>

namespace tenth::drivers {

FrameDecoder::FrameDecoder(Framing framing, Parse parse) : framing_(framing), parse_(std::move(parse)) {}

std::vector<Event> FrameDecoder::feed(std::span<const Received> bytes) {
  std::vector<Event> events;
  for (const Received received : bytes) {
    const bool after_cr = std::exchange(after_cr_, false);
    if (after_cr && received.byte == '\n' && !received.damaged) continue;
    if (ends(received)) {
      after_cr_ = received.byte == '\r';
      end(events);
    } else {
      keep(received, events);
    }
  }
  return events;
}

std::vector<Event> FrameDecoder::finish() {
  std::vector<Event> events;
  if (too_long_ && bytes_ > 0) {
    events.push_back(drop(FaultReason::too_long, "the port closed within a run of bytes without an end"));
  } else if (bytes_ > 0) {
    events.push_back(drop(FaultReason::cut_short, "the port closed before the frame ended"));
  }
  too_long_ = after_cr_ = false;
  return events;
}

bool FrameDecoder::ends(Received received) const {
  return !received.damaged && (received.byte == '\r' || (received.byte == '\n' && framing_.line_feed_ends));
}

void FrameDecoder::keep(Received received, std::vector<Event>& events) {
  if (frame_.size() < kMostRaw) frame_.push_back(static_cast<char>(received.byte));
  ++bytes_;
  damaged_ = damaged_ || received.damaged;
  too_long_ = too_long_ || bytes_ > framing_.most;
  if (bytes_ < kMostUntold) return;
  end(events);
  too_long_ = true;
}

void FrameDecoder::end(std::vector<Event>& events) {
  const bool too_long = std::exchange(too_long_, false);
  if (bytes_ == 0) return;
  if (damaged_) {
    events.push_back(drop(FaultReason::parity, "a byte was damaged on the wire"));
  } else if (too_long) {
    events.push_back(
        drop(FaultReason::too_long, "more than " + std::to_string(framing_.most) + " bytes without an end"));
  } else if (Parsed parsed = parse_(frame_)) {
    parsed->raw = std::exchange(frame_, {});
    bytes_ = 0;
    events.push_back(std::move(*parsed));
  } else {
    events.push_back(drop(FaultReason::bad_frame, std::move(parsed.error())));
  }
}

Fault FrameDecoder::drop(FaultReason why, std::string text) {
  damaged_ = false;
  return Fault{why, std::move(text), std::exchange(frame_, {}), std::exchange(bytes_, 0)};
}

}  // namespace tenth::drivers
