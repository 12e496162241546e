#include <algorithm>

#include "drivers/bcd13/bcd13.hpp"
#include "drivers/bin24/bin24.hpp"
#include "drivers/line/line.hpp"

namespace tenth::drivers {

std::span<const Format> formats() {
  static const std::vector<Format> all{bcd13_format(), bin24_format(), line_format()};
  return all;
}

const Format* find_format(const std::string& name) {
  const auto all = formats();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Format& format) { return format.name == name; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace tenth::drivers
