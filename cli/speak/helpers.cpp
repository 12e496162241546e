#include "cli/speak/helpers.hpp"

#include <unistd.h>

#include <sstream>

namespace tenth::cli {
namespace {

using Words = Helpers::Words;

bool installed(const World& world, const std::string& program) {
  std::istringstream path(world.variable("PATH"));
  for (std::string folder; std::getline(path, folder, ':');)
    if (!folder.empty() && access((folder + "/" + program).c_str(), X_OK) == 0) return true;
  return false;
}

Words first_installed(const World& world, std::initializer_list<Words> choices) {
  for (const Words& words : choices)
    if (installed(world, words.front())) return words;
  return {};
}

/// Notices may be shown as markup.
std::string without_markup(const std::string& text) {
  std::string all;
  for (const char c : text) all += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '>' ? "&gt;" : std::string(1, c);
  return all;
}

}  // namespace

Words Helpers::showing(const Notice& notice) const {
  Words words = notifier;
  words.insert(words.end(),
               {notice.urgent ? "--urgency=critical" : "--urgency=normal", "--", "Tenth", without_markup(notice.text)});
  return words;
}

Helpers find_helpers(const World& world, const std::string& player, const std::string& voice,
                     const std::string& language) {
  const std::string file = "/dev/stdin";
  Helpers helpers;
  helpers.player = player.empty() ? first_installed(world, {{"pw-play", file}, {"paplay", file}, {"aplay", "-q", file}})
                                  : Words{player, file};
  if (!voice.empty()) {
    helpers.voices = {{{voice}}};
  } else {
    if (installed(world, "spd-say"))
      helpers.voices.push_back({{"spd-say", "--wait", "--language", language, "--"}, true});
    if (installed(world, "espeak-ng")) helpers.voices.push_back({{"espeak-ng", "-v", language, "--"}});
  }
  helpers.notifier = first_installed(world, {{"notify-send", "--app-name=Tenth"}});
  return helpers;
}

}  // namespace tenth::cli
