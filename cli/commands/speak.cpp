#include <algorithm>
#include <chrono>
#include <csignal>
#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/ending.hpp"
#include "cli/follow.hpp"
#include "cli/render/text.hpp"
#include "cli/speak/composer.hpp"
#include "cli/speak/language.hpp"
#include "cli/speak/mouth.hpp"
#include "cli/words.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

using Millis = Follow::Millis;

/// What happens within this time of each other happened at once: the daemon tells of one commit in one go.
constexpr Millis kTogether(15);
constexpr Millis kLongest(60);  // of one moment
constexpr Millis kStep(20);     ///< while something is said
constexpr Millis kIdle(250);    ///< until a signal is noticed

struct Words {
  std::string level = "full", language, file, player, voice, template_of;
  bool notices = false;
};

Level level_named(const std::string& name) {
  return name == "tones" ? Level::tones : name == "short" ? Level::brief : Level::full;
}

/// The programs to speak with, or why there are none.
Result<Helpers> helpers_for(const Words& words, const std::string& language, Context& context) {
  Helpers helpers = find_helpers(context.world, words.player, words.voice, language);
  if (helpers.voices.empty() && words.level != "tones")
    return refuse("no_voice", "no program is there to speak with: neither spd-say nor espeak-ng",
                  "install speech-dispatcher or espeak-ng, name one with --voice, or say --level tones");
  if (helpers.player.empty()) {
    const std::string what = "no program is there to play tones with: pw-play, paplay or aplay";
    if (words.level == "tones") return refuse("no_player", what, "install one, or name one with --player");
    context.world.err << "tenth: " << what << "; speaking without them\n" << std::flush;
  }
  return helpers;
}

/// Gathers what happens at once, and hands it over.
class Listening {
 public:
  Listening(Follow& follow, Composer& composer) : follow_(follow), composer_(composer) {}

  /// What is to be heard next; silent where nothing came in time. What gauges show meanwhile is not spoken of.
  Utterance next(Millis patience, World& world) {
    std::vector<Json> moment;
    auto until = Clock::now() + patience;
    while (moment.size() < kMost) {
      const auto left = std::chrono::duration_cast<Millis>(until - Clock::now());
      if (left <= Millis::zero()) break;
      auto event = follow_.next(moment.empty() ? left : std::min(left, kTogether));
      if (!event) break;
      if (event->value("event", "") == "live") continue;
      if (moment.empty()) until = Clock::now() + kLongest;
      note(*event, world);
      moment.push_back(std::move(*event));
    }
    return moment.empty() ? Utterance() : composer_.compose(moment);
  }

 private:
  using Clock = std::chrono::steady_clock;
  static constexpr std::size_t kMost = 500;  ///< events of one moment: a flood is not gathered for ever

  void note(const Json& event, World& world) {
    if (event.value("event", "") == "gone")
      world.err << "tenth: " << event.value("why", "") << "; waiting for it\n" << std::flush;
    if (event.value("event", "") == "back") world.err << "tenth: the daemon is back\n" << std::flush;
  }

  Follow& follow_;
  Composer& composer_;
};

void heed(const Json& status, const Words& words, Composer& composer) {
  const Json wanted = status.value("in_session", Json::object());
  composer.alerts(wanted.value("sound", true), words.notices || wanted.value("desktop", false));
}

Result<Exit> speak(const Words& words, Context& context) {
  if (!words.template_of.empty()) {
    context.world.out << language_text(words.template_of);
    return Exit::done;
  }
  TENTH_TRY(Speech speech, find_speech(words.file, words.language, context.world));
  std::optional<Mouth> mouth;
  if (!context.options.json) {
    TENTH_TRY(Helpers helpers, helpers_for(words, speech.language, context));
    mouth.emplace(std::move(helpers), [&err = context.world.err](const std::string& program, const std::string& next) {
      err << "tenth: " << program << " does not speak; " << next << " does from now on\n" << std::flush;
    });
  }
  Composer composer(std::move(speech), level_named(words.level), context.options.unit);
  TENTH_TRY(Follow follow, Follow::begin(socket_path(context.options.socket, context.world)));
  end_on({SIGINT, SIGTERM, SIGHUP});
  end_at_once_on({SIGPIPE});
  Listening listening(follow, composer);
  while (!ending() && context.world.out) {
    heed(follow.status(), words, composer);
    const Utterance utterance = listening.next(mouth && mouth->goes_on() ? kStep : kIdle, context.world);
    if (utterance.silent()) continue;
    if (mouth)
      mouth->say(utterance);
    else
      context.print(utterance_json(utterance));
  }
  return Exit::done;
}

Action declare_speak(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("--level", words->level, "How much is said: tones, short or full")
      ->type_name("LEVEL")
      ->check(one_of({"tones", "short", "full"}));
  app.add_option("--language", words->language, "One that comes with tenth: " + joined(languages()))
      ->type_name("LANGUAGE")
      ->check(one_of(languages()));
  app.add_option("--words", words->file, "A language of your own (schema/speech.md)")->type_name("FILE");
  app.add_option("--template", words->template_of, "Print the words of a language, to begin your own with")
      ->type_name("LANGUAGE")
      ->check(one_of(languages()));
  app.add_flag("--notices", words->notices, "Show alerts as desktop notices too");
  app.add_option("--voice", words->voice, "Program that speaks its argument")->type_name("PROGRAM");
  app.add_option("--player", words->player, "Program that plays the WAV file it is named")->type_name("PROGRAM");
  return [words](Context& context) { return speak(*words, context); };
}

}  // namespace

std::vector<Command> speak_commands() {
  return {{"speak",
           "Say aloud what was stored, what comes next and what is wrong, until interrupted",
           {"tenth speak", "tenth speak --level short --language de", "tenth speak --level tones --notices",
            "tenth speak --template en > fr.toml", "tenth speak --words fr.toml"},
           declare_speak}};
}

}  // namespace tenth::cli
