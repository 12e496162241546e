#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>

#include "drivers/decoder.hpp"

namespace tenth::drivers {

/// The first bytes of a fault that are kept; no frame may be longer.
inline constexpr std::size_t kMostRaw = 256;
/// A run of bytes that never ends is told in faults of this many bytes, so that it does not stay unseen.
inline constexpr std::size_t kMostUntold = 4096;

/// How the frames of a format end and how long they may be.
struct Framing {
  bool line_feed_ends = false;  ///< LF alone ends a frame too; CR and CR LF always do
  std::size_t most = kMostRaw;  ///< bytes without the end
};

/// What a whole frame says, or why it is no measurement. `raw` is left to the framing.
using Parsed = tl::expected<Measurement, std::string>;
inline tl::unexpected<std::string> bad_frame(std::string why) {
  return tl::unexpected(std::move(why));
}
using Parse = std::function<Parsed(std::string_view frame)>;

/// Framing, the same for all formats that end a frame with CR or LF: an empty frame is nothing, after CR a lone LF is
/// nothing, a frame with a damaged byte is a `parity` fault, one past `most` is `too_long` up to the next end.
/// A damaged byte never ends a frame: it may have been a sign or a digit.
class FrameDecoder final : public Decoder {
 public:
  FrameDecoder(Framing framing, Parse parse);
  std::vector<Event> feed(std::span<const Received> bytes) override;
  std::vector<Event> finish() override;

 private:
  bool ends(Received received) const;
  void keep(Received received, std::vector<Event>& events);
  void end(std::vector<Event>& events);
  Fault drop(FaultReason why, std::string text);

  const Framing framing_;
  const Parse parse_;
  std::string frame_;      ///< first `kMostRaw` bytes of the unfinished frame
  std::size_t bytes_ = 0;  ///< all of its bytes that no fault has told yet
  bool damaged_ = false;   ///< one of those is damaged
  bool too_long_ = false;  ///< past `most`: the rest up to the next end is dropped
  bool after_cr_ = false;
};

}  // namespace tenth::drivers
