#include <map>
#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/profiles.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"
#include "rules/nearest.hpp"

namespace tenth::cli {

namespace {

void show_ports(Context& context, const Json& ports) {
  auto& out = context.world.out;
  if (ports.empty()) out << "no port; plug the gauge in and say it again\n";
  for (const Json& port : ports) {
    out << text(port, "port") << "  " << text(port, "device");
    if (const auto driver = text(port, "driver"); !driver.empty()) out << ", " << driver;
    if (const auto holder = text(port, "holder"); !holder.empty()) out << ", used by " << holder;
    out << '\n';
    if (const auto why = text(port, "why"); !why.empty()) out << "    " << why << '\n';
  }
}

Action declare_find(CLI::App&) {
  return [](Context& context) { return context.ask("gauge.find", Json::object(), show_ports); };
}

/// The profiles that Tenth ships and the files of the caller and the system, by name; a file hides a shipped one.
Result<Json> all_profiles(Context& context) {
  TENTH_TRY(const Json shipped, context.call("gauge.profiles"));
  std::map<std::string, Json> by_name;
  for (const Json& each : shipped) by_name[text(each, "name")] = each;
  for (const ProfileFile& file : readable_profiles(context.world))
    by_name[file.name] = {
        {"name", file.name}, {"title", nullptr}, {"speaks", nullptr}, {"from", file.path}, {"text", file.text}};
  Json list = Json::array();
  for (auto& [name, profile] : by_name) list.push_back(std::move(profile));
  return list;
}

Result<Exit> show_profiles(Context& context) {
  TENTH_TRY(Json list, all_profiles(context));
  if (context.options.json) {
    for (Json& each : list) each.erase("text");
    context.print(list);
    return Exit::done;
  }
  for (const Json& each : list) {
    const std::string title = text(each, "title");
    context.world.out << left(text(each, "name"), 16) << ' ' << (title.empty() ? text(each, "from") : title) << '\n';
  }
  return Exit::done;
}

Result<Exit> show_profile(Context& context, const std::string& name) {
  TENTH_TRY(const Json list, all_profiles(context));
  std::vector<std::string> names;
  for (const Json& each : list) {
    names.push_back(text(each, "name"));
    if (names.back() != name) continue;
    if (context.options.json)
      context.print(each);
    else
      context.world.out << each.at("text").get<std::string>();  // a file: its line ends are no control characters
    return Exit::done;
  }
  const std::string near = nearest(name, names);
  return refuse("unknown_profile", "there is no profile `" + name + "`",
                near.empty() ? "`tenth gauge profiles` lists them" : "did you mean `" + near + "`?");
}

Action declare_profiles(CLI::App& app) {
  auto name = std::make_shared<std::string>();
  app.add_option("NAME", *name, "Print this one whole, as a start for your own");
  return [name](Context& context) { return name->empty() ? show_profiles(context) : show_profile(context, *name); };
}

struct ListenWords {
  std::string port;
  std::int64_t for_s = 20;
};

void show_heard(Context& context, const Json& heard) {
  auto& out = context.world.out;
  out << heard.at("bytes").get<std::size_t>() << " bytes in " << heard.at("frames").size() << " pieces\n";
  for (const Json& frame : heard.at("frames")) out << "  " << frame.get<std::string>() << '\n';
  if (heard.at("profile").is_null()) {
    out << (heard.at("frames").empty() ? "nothing came: press the data button while it listens\n"
                                       : "no profile fits what came\n");
    return;
  }
  for (const Json& each : heard.at("candidates")) {
    out << text(each, "profile") << ", " << text(each, "line") << ":";
    for (const Json& number : each.at("numbers")) out << ' ' << number.get<std::string>();
    out << " (" << static_cast<int>(each.at("sure").get<double>() * 100) << " % of the frames)\n";
  }
  if (!heard.at("also").empty())
    out << "! another profile fits too and gives other numbers: compare them with the display\n";
  if (!heard.value("unit_named", true)) out << "the frames name no unit: give the one that the display shows\n";
  if (const auto add = text(heard, "add"); !add.empty())
    out << add << '\n';
  else
    out << "no profile has this line setting: 'tenth gauge profiles " << text(heard, "profile")
        << " > my.toml', put it under [line], and add it\n";
}

Result<Exit> listen(const ListenWords& words, Context& context) {
  if (context.world.err_is_terminal)
    context.world.err << "listening on " << words.port << " for " << words.for_s
                      << " s; press the data button three times, a second apart\n"
                      << std::flush;
  Json own = Json::array();
  for (const ProfileFile& file : readable_profiles(context.world))
    own.push_back({{"name", file.name}, {"text", file.text}});
  TENTH_TRY(const Json heard,
            context.call("gauge.listen", {{"port", words.port}, {"for_s", words.for_s}, {"profiles", own}},
                         Client::kPatience + std::chrono::seconds(words.for_s)));
  if (context.options.json)
    context.print(heard);
  else
    show_heard(context, heard);
  return heard.at("profile").is_null() ? Exit::no : Exit::done;
}

Action declare_listen(CLI::App& app) {
  auto words = std::make_shared<ListenWords>();
  app.add_option("PORT", words->port, "The port, as 'tenth gauge find' shows it")->required();
  app.add_option("--for", words->for_s, "Seconds to listen at most")->type_name("S")->check(whole_from(1));
  return [words](Context& context) { return listen(*words, context); };
}

}  // namespace

std::vector<Command> gauge_port_commands() {
  return {
      {"gauge find",
       "List the ports that a gauge may hang on",
       {"tenth gauge find", "tenth gauge find --json"},
       declare_find},
      {"gauge listen",
       "Find out what a gauge speaks, from a few presses",
       {"tenth gauge listen /dev/ttyUSB0", "tenth gauge listen usb:0042 --for 60"},
       declare_listen},
      {"gauge profiles",
       "List what gauges can speak, or print one profile",
       {"tenth gauge profiles", "tenth gauge profiles line > my-gauge.toml"},
       declare_profiles},
  };
}

}  // namespace tenth::cli
