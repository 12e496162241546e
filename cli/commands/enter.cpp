#include <algorithm>
#include <istream>
#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/render/lines.hpp"
#include "cli/render/study.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"
#include "rules/judge.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::vector<std::string> value;
  std::string again, gauge, note;
  bool rest = false;
};

/// What to do about a suspect reading: some doubts cannot be talked away.
std::string way_out(const Json& reading) {
  const auto doubts = texts(reading, "doubts");
  const auto has = [&](const char* doubt) { return std::find(doubts.begin(), doubts.end(), doubt) != doubts.end(); };
  const auto seq = text(reading, "seq");
  if (has("no_setting")) return "held as suspect; set the gauge with 'tenth master', then enter it again";
  if (has("unit")) return "held as suspect; enter it again in the gauge's unit";
  if (has("no_place") || has("wrong_kind"))
    return "held as suspect; 'tenth move " + seq + " PLACE --reason TEXT', or 'tenth undo'";
  return "held as suspect; 'tenth keep " + seq + " --reason TEXT' if it is right, else 'tenth undo'";
}

void show_entered(Context& context, const Json& result) {
  auto& out = context.world.out;
  if (const auto reading = result.find("reading"); reading != result.end()) {
    out << reading_line(context.ink, *reading, context.options.unit) << '\n';
    if (text(*reading, "state") == "suspect") out << "  " << way_out(*reading) << '\n';
  }
  if (const auto setting = result.find("setting"); setting != result.end()) {
    const bool drifted = setting->value("good", Json()) == false;
    out << (drifted ? "! drifted  " : "+ set      ") << text(*setting, "gauge")
        << (drifted ? ": its readings since the last good check are in doubt; see 'tenth alerts'" : " on its master")
        << '\n';
  }
  if (const auto study = result.find("study"); study != result.end()) show_turn(context, *study);
  if (const auto answer = result.find("answer"); answer != result.end())
    out << answer_line(context.ink, *answer)
        << (count(result, "rest") > 0 ? ", and " + text(result, "rest") + " more" : "") << '\n';
  if (const auto place = result.find("place"); place != result.end() && place->is_object())
    out << place_line(context.ink, *place) << '\n';
}

/// The value a second time: as given, else asked for at a terminal, without a look at the first.
Result<std::string> second(const Words& words, World& world) {
  if (!words.again.empty()) return words.again;
  if (!world.in_is_terminal)
    return wrong_words("again", "a value by hand is given twice", "add --again VALUE, read off the gauge anew");
  world.err << "the same again, read off the gauge anew: " << std::flush;
  std::string line;
  if (!std::getline(world.in, line)) return wrong_words("again", "no second value was given", "enter it again");
  return line;
}

bool is_answer(const std::vector<std::string>& value) {
  return value.size() == 1 && answer_from(value[0]).has_value();
}

Result<Exit> enter(const Words& words, Context& context) {
  Json params = {{"gauge", given(words.gauge)},
                 {"note", given(words.note)},
                 {"unit", context.unit_name()},
                 {"rest", words.rest ? Json(true) : Json(nullptr)}};
  if (is_answer(words.value)) {
    params["value"] = words.value[0];
    params["again"] = given(words.again);
    return context.ask("enter", params, show_entered);
  }
  const auto value = length_text(words.value, context.options.unit);
  if (!value) return tl::unexpected(value.error());
  const auto asked = second(words, context.world);
  if (!asked) return tl::unexpected(asked.error());
  const auto again = length_text({*asked}, context.options.unit);
  if (!again) return tl::unexpected(again.error());
  params["value"] = *value;
  params["again"] = *again;
  return context.ask("enter", params, show_entered);
}

Action declare_enter(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("VALUE", words->value, "A length; at a check yes, no, later or n/a")->required()->expected(1, 2);
  app.add_option("--again", words->again, "The same, read a second time")->type_name("VALUE");
  app.add_option("--gauge", words->gauge, "The gauge it was read off")->type_name("G");
  app.add_option("--note", words->note, "Something to remember")->type_name("TEXT");
  app.add_flag("--rest", words->rest, "So for every index that has no answer yet");
  return [words](Context& context) { return enter(*words, context); };
}

}  // namespace

std::vector<Command> enter_commands() {
  return {{"enter",
           "Enter a reading by hand, twice; or answer a check",
           {"tenth enter 0.0270 --again 0.0270 --unit in --gauge feeler", "tenth enter -0.0012 --again -0.0012",
            "tenth enter yes --note 'blown through with air'", "tenth enter yes --rest"},
           declare_enter}};
}

}  // namespace tenth::cli
