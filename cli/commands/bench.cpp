#include <csignal>

#include "cli/bench/live.hpp"
#include "cli/bench/screen.hpp"
#include "cli/bench/terminal.hpp"
#include "cli/command.hpp"
#include "cli/ending.hpp"

namespace tenth::cli {
namespace {

using Clock = std::chrono::steady_clock;

constexpr Live::Millis kStep(40);            ///< until a key is noticed
constexpr std::chrono::seconds kMessage(8);  ///< that the answer to a key is shown

/// What was said last, as long as it is shown.
struct Message {
  std::string text;
  Clock::time_point until;
};

/// False where the screen is to end.
bool obey(int key, Live& live, Terminal& terminal, Message& message) {
  constexpr int kRedraw = 'L' - '@';
  const char* const method = key == 'n' ? "next" : key == 'b' ? "back" : key == 'u' ? "undo" : nullptr;
  if (key == kRedraw) terminal.redraw();
  if (method != nullptr) message = {live.act(method, gauge_in_view(live.bench())), Clock::now() + kMessage};
  return key != 'q';
}

void show(Live& live, Terminal& terminal) {
  Message message;
  while (!ending()) {
    if (Clock::now() >= message.until) message.text.clear();
    terminal.paint(
        draw_bench(live.bench(), {terminal.rows(), terminal.columns(), terminal.utf8(), live.stale_s(), message.text}));
    live.step(kStep);
    while (const auto key = terminal.key())
      if (!obey(*key, live, terminal, message)) return;
  }
}

Result<Exit> bench(Context& context) {
  if (context.options.json) return context.ask("bench", Json::object(), nullptr);
  if (!context.world.in_is_terminal || !context.world.out_is_terminal)
    return refuse("no_terminal", "there is no terminal to show the bench on",
                  "`tenth watch` prints lines, `tenth bench --json` the whole once");
  TENTH_TRY(Live live, Live::begin(socket_path(context.options.socket, context.world)));
  end_on({SIGINT, SIGTERM, SIGHUP, SIGQUIT});
  auto terminal = Terminal::take();
  if (!terminal)
    return refuse("terminal", "this terminal is of no kind that is known: TERM=" + context.world.variable("TERM"),
                  "set TERM to what it is, such as xterm");
  show(live, *terminal);
  return Exit::done;
}

Action declare_bench(CLI::App&) {
  return bench;
}

}  // namespace

std::vector<Command> bench_commands() {
  return {{"bench",
           "Show place, size and what is wrong, large, in this terminal",
           {"tenth bench", "tenth bench --json"},
           declare_bench}};
}

}  // namespace tenth::cli
