#include "drivers/link/keyboards.hpp"

#include <algorithm>

#include "drivers/link/first_line.hpp"

namespace tenth::drivers {

namespace {

namespace fs = std::filesystem;

/// A mouse or a lid switch has no key that types: of the key bits the last word holds KEY_1 to KEY_0 and Enter.
bool has_typing_keys(const fs::path& device) {
  const std::string words = first_line(device / "capabilities/key");
  const auto blank = words.find_last_of(' ');
  const std::string last = blank == std::string::npos ? words : words.substr(blank + 1);
  constexpr unsigned long long kDigitsAndEnter = 0x10000ffcULL;
  return !last.empty() && (std::strtoull(last.c_str(), nullptr, 16) & kDigitsAndEnter) != 0;
}

}  // namespace

std::vector<Keyboard> keyboards(const fs::path& sys, const fs::path& dev) {
  std::vector<Keyboard> all;
  std::error_code error;
  for (fs::directory_iterator it(sys / "class/input", error), end; !error && it != end; it.increment(error)) {
    const fs::directory_entry& entry = *it;
    const fs::path device = entry.path() / "device";
    if (!entry.path().filename().string().starts_with("event") || !has_typing_keys(device)) continue;
    all.push_back(
        {(dev / "input" / entry.path().filename()).string(), first_line(device / "name"), first_line(device / "uniq")});
  }
  std::sort(all.begin(), all.end(), [](const Keyboard& a, const Keyboard& b) { return a.device < b.device; });
  return all;
}

Result<std::string> keyboard_named(const std::vector<Keyboard>& all, const std::string& name) {
  std::vector<const Keyboard*> found;
  for (const Keyboard& each : all)
    if (!each.serial.empty() && each.serial == name) found.push_back(&each);
  if (found.empty())
    for (const Keyboard& each : all)
      if (each.name == name) found.push_back(&each);
  if (found.empty())
    return refuse("absent", "there is no keyboard " + name,
                  "plug the gauge in; `tenth gauge find` lists what is there");
  if (found.size() > 1)
    return refuse("ambiguous", std::to_string(found.size()) + " keyboards are called " + name,
                  "give the path of its device instead, such as keys:" + found.front()->device);
  return found.front()->device;
}

std::string key_port(const Keyboard& keyboard) {
  return "keys:" + (keyboard.serial.empty() ? keyboard.name : keyboard.serial);
}

}  // namespace tenth::drivers
