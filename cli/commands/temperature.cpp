#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/lines.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string part, gauge, within;
  std::vector<std::string> features;
};

void show_told(Context& context, const Json& told) {
  auto& out = context.world.out;
  out << temperature_words(told) << ", for " << text(told, "life_h") << " h\n";
  if (text(told, "gauge_at").empty()) out << "nothing is corrected to 20 C without --gauge\n";
  if (const auto names = texts(told, "uncorrected"); !names.empty())
    out << wrapped("not corrected, since the spec names no known material: " + joined(names), 2, 0);
}

Result<Exit> tell(const Words& words, Context& context) {
  const Json params = {{"part", words.part},
                       {"gauge", given(words.gauge)},
                       {"within", given(words.within)},
                       {"features", words.features}};
  return context.ask("temperature", params, show_told);
}

Action declare_temperature(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("--part", words->part, "Of the parts: degrees Celsius, or 70F")->required()->type_name("T");
  app.add_option("--gauge", words->gauge, "Of the gauge, likewise")->type_name("T");
  app.add_option("--within", words->within, "How well both are known, in kelvins")->type_name("K");
  app.add_option("FEATURE", words->features, "The features it is about; none: all");
  return [words](Context& context) { return tell(*words, context); };
}

}  // namespace

std::vector<Command> temperature_commands() {
  return {{"temperature",
           "Say how warm parts and gauge are: sizes are corrected to 20 C",
           {"tenth temperature --part 23.5 --gauge 22", "tenth temperature --part 75F --gauge 72F --within 1 piston"},
           declare_temperature}};
}

}  // namespace tenth::cli
