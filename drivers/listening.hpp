#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "drivers/decoder.hpp"
#include "schema/profile/profile.hpp"

namespace tenth::drivers {

/// A profile that may be what a gauge speaks.
struct Tried {
  std::string name;
  Profile profile;
};

/// How well one profile explains what came.
struct Candidate {
  std::string name;
  LineSettings line;
  std::vector<std::string> numbers;   ///< that it would give, with their unit where the frame names it
  std::vector<std::string> channels;  ///< among them; none where frames name none
  std::size_t faults = 0;
  bool unit_named = false;  ///< by every frame
  bool own_line = true;     ///< the profile has the line setting that it was heard at
  bool as_sent = true;      ///< the profile's gauge sends all the time where this one does, else at a press
  bool fits() const { return !numbers.empty() && faults == 0; }
};

/// Finds out what a gauge speaks from the bytes of a few presses of its button, without sending it anything. One line
/// setting after the other is tried: a burst of bytes that nothing explains moves on to the next. Pure.
class Listening {
 public:
  /// So many bursts that one profile explains are enough.
  static constexpr int kEnough = 3;

  /// `on_keys`: on a device that types, where only profiles of `keys` can be right.
  explicit Listening(std::vector<Tried> tried, bool on_keys = false);

  /// To be set before the next burst.
  const LineSettings& line() const { return lines_[at_]; }
  /// One burst of bytes: all until a pause of 200 ms. True: it was explained, or there was nothing.
  bool take(const std::vector<Received>& burst);
  bool done() const { return explained_ >= kEnough; }

  /// What came under the present setting; profiles that explain it all first, the most general of them before others.
  std::vector<Candidate> candidates() const;
  std::size_t bytes() const { return bytes_; }  ///< in all
  const std::vector<std::string>& bursts() const { return shown_; }

 private:
  std::vector<Tried> tried_;
  std::vector<LineSettings> lines_;
  std::size_t at_ = 0;
  std::vector<std::vector<Received>> bursts_;  ///< under the present setting
  std::vector<std::string> shown_;             ///< all bursts, their first bytes
  int explained_ = 0;
  std::size_t bytes_ = 0;
};

}  // namespace tenth::drivers
