#include <algorithm>
#include <array>
#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/profiles.hpp"
#include "cli/render/gauge.hpp"
#include "cli/words.hpp"

namespace tenth::cli {
namespace {

/// Lengths that a gauge is described by; each is a parameter of the same name.
constexpr std::array<const char*, 4> kLengths = {"resolution", "drift", "uncertainty", "repeatability"};
constexpr std::array<const char*, 4> kLengthHelp = {
    "What its last digit counts in", "Drift of its zero past which it is doubted",
    "Expanded uncertainty (k = 2) of a size", "Expanded repeatability (k = 2)"};

struct Words {
  std::string name, port, profile, reads, measures, unit, channel, expansion, serial, capture, button, settle_band;
  std::optional<std::int64_t> settle_for_ms;
  std::array<std::string, kLengths.size()> lengths;
};

Result<Json> params_of(const Words& words, const World& world, std::optional<Unit> common) {
  std::optional<Unit> bare = common;
  if (!words.unit.empty()) bare = parse_unit(words.unit).value();
  Json params = {{"name", words.name},
                 {"port", given(words.port)},
                 {"profile", given(words.profile)},
                 {"capture", given(words.capture)},
                 {"button", given(words.button)},
                 {"settle_for_ms", or_null(words.settle_for_ms)},
                 {"reads", given(words.reads)},
                 {"measures", given(words.measures)},
                 {"gauge_unit", given(words.unit)},
                 {"channel", given(words.channel)},
                 {"expansion", given(words.expansion)},
                 {"serial", given(words.serial)}};
  if (!words.profile.empty()) {
    TENTH_TRY(const auto whole, profile_text(world, words.profile));
    if (whole) params["profile_text"] = *whole;
  }
  if (bare) params["unit"] = name(*bare);
  if (!words.settle_band.empty()) {
    TENTH_TRY(params["settle_band"], length_text({words.settle_band}, bare));
  }
  for (std::size_t i = 0; i < kLengths.size(); ++i) {
    if (words.lengths[i].empty()) continue;
    const auto length = length_text({words.lengths[i]}, bare);
    if (!length) return tl::unexpected(length.error());
    params[kLengths[i]] = *length;
  }
  return params;
}

void show_dropped(Context& context, const Json& gauge) {
  context.world.out << "gauge " << text(gauge, "gauge") << " dropped; its readings stay\n";
}

/// What `add` and `change` have in common.
void declare_words(CLI::App& app, const std::shared_ptr<Words>& words, bool required) {
  app.add_option("NAME", words->name, "What you call it")->required()->check(not_blank());
  app.add_option("--port", words->port, "A device, usb:SERIAL, usb:@SOCKET, tcp:HOST:PORT,\nkeys:NAME, or hand")
      ->required(required);
  app.add_option("--profile", words->profile, "What it speaks: one of 'tenth gauge profiles', or a\nfile")
      ->required(required);
  app.add_option("--reads", words->reads, "size, or deviation from its setting")->check(one_of({"size", "deviation"}));
  app.add_option("--measures", words->measures, "inside, outside, depth, gap or any")
      ->check(one_of({"inside", "outside", "depth", "gap", "any"}));
  app.add_option("--unit", words->unit, "The gauge's own unit: mm or in")->check(one_of({"mm", "in"}));
  app.add_option("--channel", words->channel, "Its channel, where several gauges share a port");
  for (std::size_t i = 0; i < kLengths.size(); ++i)
    app.add_option(std::string("--") + kLengths[i], words->lengths[i], kLengthHelp[i])->type_name("L");
  app.add_option("--expansion", words->expansion, "Its thermal expansion in 1e-6/K");
  app.add_option("--serial", words->serial, "Its serial number");
  app.add_option("--capture", words->capture,
                 "How one that sends all the time gives readings:\nasked, turning or settled")
      ->check(one_of({"asked", "turning", "settled"}));
  app.add_option("--button", words->button, "A gauge whose button takes what this one shows")->type_name("G");
  app.add_option("--settle-band", words->settle_band, "Settled: values lie within this")->type_name("L");
  app.add_option("--settle-for-ms", words->settle_for_ms, "Settled: for so many milliseconds")
      ->type_name("MS")
      ->check(whole_from(1));
}

Action declare_add(CLI::App& app) {
  auto words = std::make_shared<Words>();
  declare_words(app, words, true);
  return [words](Context& context) -> Result<Exit> {
    TENTH_TRY(const Json params, params_of(*words, context.world, context.options.unit));
    return context.ask("gauge.add", params, show_gauge);
  };
}

Action declare_change(CLI::App& app) {
  auto words = std::make_shared<Words>();
  declare_words(app, words, false);
  return [words](Context& context) -> Result<Exit> {
    TENTH_TRY(const Json params, params_of(*words, context.world, context.options.unit));
    const auto said = [](const Json& value) { return !value.is_null(); };
    if (std::count_if(params.begin(), params.end(), said) <= (context.options.unit ? 2 : 1))
      return wrong_words("change", "nothing is to be changed", "say what, such as --port or --drift");
    return context.ask("gauge.change", params, show_gauge);
  };
}

Action declare_list(CLI::App&) {
  return [](Context& context) { return context.ask("gauge.list", Json::object(), show_gauges); };
}

Action declare_drop(CLI::App& app) {
  auto name = std::make_shared<std::string>();
  app.add_option("NAME", *name, "The gauge")->required();
  return [name](Context& context) { return context.ask("gauge.drop", {{"name", *name}}, show_dropped); };
}

}  // namespace

std::vector<Command> gauge_commands() {
  return {
      {"gauge add",
       "Add a gauge and the port it hangs on",
       {"tenth gauge add bore --port /dev/ttyUSB0 --profile line --reads deviation --measures inside --unit mm",
        "tenth gauge add mic --port hand --profile line --measures outside --unit in --uncertainty 0.0001",
        "tenth gauge add probe --port tcp:192.168.0.7:4001 --profile query --measures outside --unit mm"},
       declare_add},
      {"gauge change",
       "Change what is said of a gauge; what is not named stays",
       {"tenth gauge change bore --port usb:0042", "tenth gauge change bore --drift 0.002"},
       declare_change},
      {"gauge list", "Show all gauges", {"tenth gauge list"}, declare_list},
      {"gauge drop", "Let go of a gauge and its port", {"tenth gauge drop mic"}, declare_drop},
  };
}

}  // namespace tenth::cli
