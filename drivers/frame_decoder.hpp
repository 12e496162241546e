#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>

#include "drivers/decoder.hpp"
#include "schema/profile/profile.hpp"

namespace tenth::drivers {

/// The first bytes of a fault that are kept; no frame may be longer.
inline constexpr std::size_t kMostRaw = 256;
/// A run of bytes that never ends is told in faults of this many bytes, so that it does not stay unseen.
inline constexpr std::size_t kMostUntold = 4096;

/// Why a whole frame is no measurement.
struct Wrong {
  FaultReason why = FaultReason::bad_frame;
  std::string text;
};

/// What a whole frame says. `raw` is left to the framing.
using Parsed = tl::expected<Measurement, Wrong>;
inline tl::unexpected<Wrong> bad_frame(std::string text) {
  return tl::unexpected(Wrong{FaultReason::bad_frame, std::move(text)});
}

using Parse = std::function<Parsed(std::string_view frame)>;

/// Framing, the same for all formats of characters: the longest end that fits ends a frame, and what would make an end
/// longer is swallowed (a lone LF after CR); an empty frame is nothing; bytes before `start` are `noise`; a frame with
/// a damaged byte is a `parity` fault, one past `most` is `too_long` up to the next end. A damaged byte never ends a
/// frame: it may have been a sign or a digit.
class FrameDecoder final : public Decoder {
 public:
  FrameDecoder(Framing framing, std::string ask, Parse parse);

  std::vector<Event> feed(std::span<const Received> bytes) override;
  std::vector<Event> silence() override;
  std::vector<Event> pause() override;
  std::vector<Event> finish() override;
  std::string ask() override { return ask_; }

 private:
  bool lengthens_end(Received received, std::vector<Event>& events);
  void take(Received received, std::vector<Event>& events);
  void keep(Received received);
  std::size_t end_here() const;
  void begin_after_noise(std::vector<Event>& events);
  void end(std::vector<Event>& events);
  std::vector<Event> break_off(const std::string& how);
  Fault drop(FaultReason why, std::string text);

  const Framing framing_;
  const std::string ask_;
  const Parse parse_;
  std::size_t longest_end_ = 0;
  std::string frame_;       ///< first `kMostRaw` bytes of the unfinished frame
  std::size_t bytes_ = 0;   ///< all of its bytes that no fault has told yet
  std::string tail_;        ///< its last undamaged bytes, as many as an end or a start can have
  std::string ended_;       ///< the end just seen and what may make it longer
  std::size_t beyond_ = 0;  ///< how many of those are no end yet
  bool damaged_ = false;    ///< a byte of the frame is damaged
  bool too_long_ = false;   ///< the rest up to the next end is dropped
  bool seeking_ = false;    ///< for the start
};

}  // namespace tenth::drivers
