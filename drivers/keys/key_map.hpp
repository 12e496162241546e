#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>

#include "rules/result.hpp"

namespace tenth::drivers {

/// The characters that the keys of a typing gauge stand for, whatever the desktop makes of them: digits, point, comma,
/// minus, plus and letters as on the keyboard that the USB HID usage tables (page 0x07) name them after, Enter a line
/// feed, Tab a tab. Key codes are the kernel's (linux/input-event-codes.h).
class KeyMap {
 public:
  /// `changed`: the kernel's names of keys to other characters. Refused (`profile`): a name that is no key of a gauge.
  static Result<KeyMap> make(const std::map<std::string, std::string>& changed);

  /// One press or release of a key. Empty: nothing is typed by it (a release, a shift, an unknown key).
  /// `value` is 0 released, 1 pressed, 2 repeated by being held, which types nothing.
  std::optional<char> take(std::uint16_t code, std::int32_t value);

 private:
  struct Key {
    char plain = 0, shifted = 0;
  };
  std::map<std::uint16_t, Key> keys_;
  bool left_shift_ = false, right_shift_ = false;
};

}  // namespace tenth::drivers
