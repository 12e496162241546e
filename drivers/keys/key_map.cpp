#include "drivers/keys/key_map.hpp"

#include <linux/input-event-codes.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace tenth::drivers {

namespace {

struct NamedKey {
  std::string_view name;
  std::uint16_t code;
  char plain, shifted;
};

constexpr std::array kKeys{
    NamedKey{"KEY_1", KEY_1, '1', '!'},
    NamedKey{"KEY_2", KEY_2, '2', '@'},
    NamedKey{"KEY_3", KEY_3, '3', '#'},
    NamedKey{"KEY_4", KEY_4, '4', '$'},
    NamedKey{"KEY_5", KEY_5, '5', '%'},
    NamedKey{"KEY_6", KEY_6, '6', '^'},
    NamedKey{"KEY_7", KEY_7, '7', '&'},
    NamedKey{"KEY_8", KEY_8, '8', '*'},
    NamedKey{"KEY_9", KEY_9, '9', '('},
    NamedKey{"KEY_0", KEY_0, '0', ')'},
    NamedKey{"KEY_MINUS", KEY_MINUS, '-', '_'},
    NamedKey{"KEY_EQUAL", KEY_EQUAL, '=', '+'},
    NamedKey{"KEY_DOT", KEY_DOT, '.', '>'},
    NamedKey{"KEY_COMMA", KEY_COMMA, ',', '<'},
    NamedKey{"KEY_SLASH", KEY_SLASH, '/', '?'},
    NamedKey{"KEY_SEMICOLON", KEY_SEMICOLON, ';', ':'},
    NamedKey{"KEY_SPACE", KEY_SPACE, ' ', ' '},
    NamedKey{"KEY_ENTER", KEY_ENTER, '\n', '\n'},
    NamedKey{"KEY_TAB", KEY_TAB, '\t', '\t'},
    NamedKey{"KEY_KP1", KEY_KP1, '1', '1'},
    NamedKey{"KEY_KP2", KEY_KP2, '2', '2'},
    NamedKey{"KEY_KP3", KEY_KP3, '3', '3'},
    NamedKey{"KEY_KP4", KEY_KP4, '4', '4'},
    NamedKey{"KEY_KP5", KEY_KP5, '5', '5'},
    NamedKey{"KEY_KP6", KEY_KP6, '6', '6'},
    NamedKey{"KEY_KP7", KEY_KP7, '7', '7'},
    NamedKey{"KEY_KP8", KEY_KP8, '8', '8'},
    NamedKey{"KEY_KP9", KEY_KP9, '9', '9'},
    NamedKey{"KEY_KP0", KEY_KP0, '0', '0'},
    NamedKey{"KEY_KPDOT", KEY_KPDOT, '.', '.'},
    NamedKey{"KEY_KPCOMMA", KEY_KPCOMMA, ',', ','},
    NamedKey{"KEY_KPMINUS", KEY_KPMINUS, '-', '-'},
    NamedKey{"KEY_KPPLUS", KEY_KPPLUS, '+', '+'},
    NamedKey{"KEY_KPENTER", KEY_KPENTER, '\n', '\n'},
    NamedKey{"KEY_A", KEY_A, 'a', 'A'},
    NamedKey{"KEY_B", KEY_B, 'b', 'B'},
    NamedKey{"KEY_C", KEY_C, 'c', 'C'},
    NamedKey{"KEY_D", KEY_D, 'd', 'D'},
    NamedKey{"KEY_E", KEY_E, 'e', 'E'},
    NamedKey{"KEY_F", KEY_F, 'f', 'F'},
    NamedKey{"KEY_G", KEY_G, 'g', 'G'},
    NamedKey{"KEY_H", KEY_H, 'h', 'H'},
    NamedKey{"KEY_I", KEY_I, 'i', 'I'},
    NamedKey{"KEY_J", KEY_J, 'j', 'J'},
    NamedKey{"KEY_K", KEY_K, 'k', 'K'},
    NamedKey{"KEY_L", KEY_L, 'l', 'L'},
    NamedKey{"KEY_M", KEY_M, 'm', 'M'},
    NamedKey{"KEY_N", KEY_N, 'n', 'N'},
    NamedKey{"KEY_O", KEY_O, 'o', 'O'},
    NamedKey{"KEY_P", KEY_P, 'p', 'P'},
    NamedKey{"KEY_Q", KEY_Q, 'q', 'Q'},
    NamedKey{"KEY_R", KEY_R, 'r', 'R'},
    NamedKey{"KEY_S", KEY_S, 's', 'S'},
    NamedKey{"KEY_T", KEY_T, 't', 'T'},
    NamedKey{"KEY_U", KEY_U, 'u', 'U'},
    NamedKey{"KEY_V", KEY_V, 'v', 'V'},
    NamedKey{"KEY_W", KEY_W, 'w', 'W'},
    NamedKey{"KEY_X", KEY_X, 'x', 'X'},
    NamedKey{"KEY_Y", KEY_Y, 'y', 'Y'},
    NamedKey{"KEY_Z", KEY_Z, 'z', 'Z'},
};

}  // namespace

Result<KeyMap> KeyMap::make(const std::map<std::string, std::string>& changed) {
  KeyMap map;
  for (const NamedKey& key : kKeys) map.keys_[key.code] = {key.plain, key.shifted};
  for (const auto& [name, character] : changed) {
    const auto known = std::find_if(kKeys.begin(), kKeys.end(), [&](const NamedKey& key) { return key.name == name; });
    if (known == kKeys.end())
      return refuse("profile", "[keys] there is no key " + name + " on a gauge",
                    "write the kernel's name of a digit, letter, sign or keypad key, such as KEY_COMMA");
    map.keys_[known->code] = {character.front(), character.front()};
  }
  return map;
}

std::optional<char> KeyMap::take(std::uint16_t code, std::int32_t value) {
  if (code == KEY_LEFTSHIFT) left_shift_ = value != 0;
  if (code == KEY_RIGHTSHIFT) right_shift_ = value != 0;
  const auto key = keys_.find(code);
  if (value != 1 || key == keys_.end()) return std::nullopt;
  return left_shift_ || right_shift_ ? key->second.shifted : key->second.plain;
}

}  // namespace tenth::drivers
