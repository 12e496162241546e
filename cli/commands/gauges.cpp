#include <array>
#include <memory>
#include <ostream>

#include "cli/command.hpp"
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
  std::string name, port, profile, reads, measures, unit, channel, expansion, serial;
  std::array<std::string, kLengths.size()> lengths;
};

Result<Json> params_of(const Words& words, std::optional<Unit> common) {
  std::optional<Unit> bare = common;
  if (!words.unit.empty()) bare = parse_unit(words.unit).value();
  Json params = {{"name", words.name},
                 {"port", words.port},
                 {"profile", words.profile},
                 {"reads", given(words.reads)},
                 {"measures", given(words.measures)},
                 {"gauge_unit", given(words.unit)},
                 {"channel", given(words.channel)},
                 {"expansion", given(words.expansion)},
                 {"serial", given(words.serial)}};
  if (bare) params["unit"] = name(*bare);
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

Action declare_add(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("NAME", words->name, "What you call it")->required()->check(not_blank());
  app.add_option("--port", words->port, "A device, or 'hand' for a gauge without a wire")->required();
  app.add_option("--profile", words->profile, "What it speaks: line, bcd13 or bin24")->required();
  app.add_option("--reads", words->reads, "size, or deviation from its setting")->check(one_of({"size", "deviation"}));
  app.add_option("--measures", words->measures, "inside, outside, depth, gap or any")
      ->check(one_of({"inside", "outside", "depth", "gap", "any"}));
  app.add_option("--unit", words->unit, "The gauge's own unit: mm or in")->check(one_of({"mm", "in"}));
  app.add_option("--channel", words->channel, "Its channel, where several gauges share a port");
  for (std::size_t i = 0; i < kLengths.size(); ++i)
    app.add_option(std::string("--") + kLengths[i], words->lengths[i], kLengthHelp[i])->type_name("L");
  app.add_option("--expansion", words->expansion, "Its thermal expansion in 1e-6/K");
  app.add_option("--serial", words->serial, "Its serial number");
  return [words](Context& context) -> Result<Exit> {
    const auto params = params_of(*words, context.options.unit);
    if (!params) return tl::unexpected(params.error());
    return context.ask("gauge.add", *params, show_gauge);
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
        "tenth gauge add mic --port hand --profile line --measures outside --unit in --uncertainty 0.0001"},
       declare_add},
      {"gauge list", "Show all gauges", {"tenth gauge list"}, declare_list},
      {"gauge drop", "Let go of a gauge and its port", {"tenth gauge drop mic"}, declare_drop},
  };
}

}  // namespace tenth::cli
