#include "schema/profile/profile_file.hpp"

#include <re2/re2.h>

#include "schema/profile/parts.hpp"

namespace tenth {

namespace profile_file {

namespace {

constexpr std::string_view kFormat = "tenth-profile-1";

Speaks read_speaks(Keys& keys) {
  if (keys.required("format", "write format = \"tenth-profile-1\" at the top") != kFormat && keys.has("format"))
    keys.wrong("format", "format is not " + quoted(kFormat), "write format = \"tenth-profile-1\"");
  if (!keys.has("speaks"))
    keys.wrong("speaks", "needs speaks", "write what the gauge speaks, such as speaks = \"line\"");
  return keys.choice("speaks", Speaks::line,
                     {{"line", Speaks::line},
                      {"query", Speaks::query},
                      {"modbus", Speaks::modbus},
                      {"keys", Speaks::keys},
                      {"bcd13", Speaks::bcd13},
                      {"bin24", Speaks::bin24},
                      {"pedal", Speaks::pedal}});
}

Profile read_profile(TomlText& text, const toml::table& root) {
  Keys file(text, root, "the profile",
            {"format", "title", "speaks", "line", "frame", "value", "status", "trigger", "modbus", "keys", "limits"});
  Profile profile;
  profile.speaks = read_speaks(file);
  profile.title = file.words("title");
  profile.line = read_line(file);
  profile.frame = read_framing(file, profile.speaks);
  profile.value = read_value(file, profile.speaks);
  profile.status = read_status(file);
  profile.trigger = read_trigger(file, profile.speaks);
  profile.modbus = read_modbus(file, profile.speaks);
  profile.key_map = read_key_map(file, profile.speaks);
  text.unit = profile.value.unit;
  profile.range = read_range(file);
  return profile;
}

}  // namespace

}  // namespace profile_file

Result<Profile> parse_profile(std::string_view text, const std::string& file) {
  return toml_file::read_toml(text, file, "profile", profile_file::read_profile);
}

std::string_view name(Speaks speaks) {
  switch (speaks) {
    case Speaks::line:
      return "line";
    case Speaks::query:
      return "query";
    case Speaks::modbus:
      return "modbus";
    case Speaks::keys:
      return "keys";
    case Speaks::bcd13:
      return "bcd13";
    case Speaks::bin24:
      return "bin24";
    case Speaks::pedal:
      return "pedal";
  }
  return "";
}

std::string_view name(SentBy by) {
  switch (by) {
    case SentBy::button:
      return "button";
    case SentBy::continuous:
      return "continuous";
    case SentBy::poll:
      return "poll";
  }
  return "";
}

std::string words(const LineSettings& line) {
  const std::string parity = line.parity == Parity::none ? "no" : line.parity == Parity::even ? "even" : "odd";
  return std::to_string(line.baud) + " baud, " + std::to_string(line.bits) + " bits, " + parity + " parity, " +
         std::to_string(line.stop) + (line.stop == 1 ? " stop bit" : " stop bits");
}

bool tells_unit(const Profile& profile) {
  return profile.speaks == Speaks::bcd13 || profile.speaks == Speaks::bin24 || profile.value.unit;
}

bool has_channels(const Profile& profile) {
  RE2::Options options(RE2::Latin1);
  options.set_log_errors(false);
  return !profile.value.pattern.empty() &&
         RE2(profile.value.pattern, options).NamedCapturingGroups().contains("channel");
}

}  // namespace tenth
