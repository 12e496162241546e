// Profile files that the tests give to `gauge add --profile FILE`.
#pragma once

#include <string>

namespace acceptance {

// The pattern of the contract's sample: channel, number, unit and status.
inline const std::string sample_pattern =
    R"((?:(?P<channel>[AB])[ :])? *(?P<number>[+-]? *[0-9]{1,4}(?:[.,][0-9]{1,6})?(?:[eE][+-]?[0-9]{1,2})?) *)"
    R"((?P<unit>mm|in)?(?P<status>[A-Z])?)";

struct ProfileText {
  std::string frame = "";   // keys of [frame]
  std::string value = "";   // more keys of [value]
  std::string groups = "";  // further groups
  std::string pattern = sample_pattern;
  std::string unit = "unit = \"mm\"";
};

inline std::string line_profile(const ProfileText& text = {}) {
  return "format = \"tenth-profile-1\"\ntitle = \"A gauge of the tests\"\nspeaks = \"line\"\n[frame]\n" + text.frame +
         "\n[value]\npattern = '" + text.pattern + "'\n" + text.unit + "\n" + text.value + "\n" + text.groups + "\n";
}

inline const std::string continuous = "[trigger]\nby = \"continuous\"\n";
// Asked with R and CR ten times a second.
inline const std::string polled = "[trigger]\nby = \"poll\"\nask = \"R\\r\"\nevery_ms = 100\nwithin_ms = 150\n";

}  // namespace acceptance
