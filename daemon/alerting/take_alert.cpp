#include "daemon/alerting/take_alert.hpp"

#include "daemon/config_keys.hpp"

namespace tenth {
namespace {

Result<void> take_program(const std::string& file, const toml::node& node, AlertConfig& alert) {
  if (auto taken = config::take_texts(file, node, alert.program); !taken) return taken;
  if (alert.program.front().starts_with('/')) return {};
  return config::wrong(file, node.source().begin, "`" + alert.program.front() + "` is no whole path of a program",
                       "begin it with a slash: no shell looks for it");
}

Result<void> take_url(const std::string& file, const toml::node& node, AlertConfig& alert) {
  std::string text;
  if (auto taken = config::take_text(file, node, text); !taken) return taken;
  auto target = parse_http_target(text);
  if (!target)
    return config::wrong(file, node.source().begin, "`url`: " + target.error().message, target.error().remedy);
  alert.url = std::move(*target);
  return {};
}

}  // namespace

Result<void> take_alert(const std::string& file, const toml::node& node, AlertConfig& alert) {
  const toml::table* const table = node.as_table();
  if (table == nullptr) return config::wrong(file, node.source().begin, "`alert` is a table", "write [alert]");
  for (const auto& [key, value] : *table) {
    Result<void> taken;
    if (key == "program")
      taken = take_program(file, value, alert);
    else if (key == "url")
      taken = take_url(file, value, alert);
    else if (key == "sound")
      taken = config::take_yes(file, value, alert.in_session.sound);
    else if (key == "desktop")
      taken = config::take_yes(file, value, alert.in_session.desktop);
    else
      return config::unknown_key(file, key, {"program", "url", "sound", "desktop"});
    if (!taken) return taken;
  }
  return {};
}

}  // namespace tenth
