#pragma once

#include <cstdint>

#include "drivers/decoder.hpp"

namespace tenth::drivers {

/// An event, and whether it is a number that may have lost bytes: held as suspect (`damaged`).
struct Judged {
  Event event;
  bool damaged = false;
  bool unseen = false;  ///< its beginning was not seen
};

/// Says which numbers of one port may be parts of others: those with a fault before them in the same burst of bytes
/// or beside them in the same chunk, and the first frame after opening when its beginning was not seen.
/// Times are steady nanoseconds.
class Burst {
 public:
  /// A pause this long ends a burst.
  static constexpr std::int64_t kPause_ns = 200'000'000;

  void opened(bool bytes_waited);
  /// Call once for every chunk of bytes, with what the decoder made of it, even where that is nothing.
  std::vector<Judged> take(std::vector<Event> events, std::int64_t now_ns, bool whole_by_length);

 private:
  bool faulty_ = false;            ///< the burst holds a fault
  bool beginning_unseen_ = false;  ///< of the next frame
  std::int64_t last_ns_ = 0;       ///< arrival of the last chunk
};

}  // namespace tenth::drivers
