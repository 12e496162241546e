#include <sys/socket.h>

#include <csignal>
#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/words.hpp"

namespace tenth::cli {

namespace {

volatile std::sig_atomic_t interrupted = 0, listened_on = -1;

/// Ends the wait for the next event; what came is written then.
extern "C" void note_interrupt(int) {
  interrupted = 1;
  shutdown(listened_on, SHUT_RD);
}

struct Words {
  std::string gauge, file;
  std::int64_t for_s = 60;
};

std::string head(const Json& gauge) {
  const Json unit = gauge.value("unit", Json());
  std::string text = "# what crossed a gauge's wire (form: tests/recordings/README.md)\n# profile: " +
                     gauge.at("profile").get<std::string>() + "\n";
  if (unit.is_string()) text += "# unit: " + unit.get<std::string>() + "\n";
  return text;
}

Result<Json> gauge_of(Context& context, const std::string& name) {
  TENTH_TRY(const Json gauges, context.call("gauge.list"));
  for (const Json& gauge : gauges)
    if (gauge.at("name") == name) return gauge;
  return refuse("unknown_gauge", "there is no gauge `" + name + "`", "`tenth gauge list` shows them");
}

/// One line for what arrived together: milliseconds since the first, a blank, the bytes. A question is a remark.
std::string line(const Json& event, std::int64_t& began_ns) {
  const auto at_ns = event.at("mono_ns").get<std::int64_t>();
  if (began_ns == 0) began_ns = at_ns;
  const bool asked = event.at("to") == "gauge";
  return (asked ? "# asked: " : "") + std::to_string((at_ns - began_ns) / 1'000'000) + " " +
         event.at("bytes").get<std::string>() + "\n";
}

Result<Exit> record(const Words& words, Context& context) {
  TENTH_TRY(const Json gauge, gauge_of(context, words.gauge));
  std::string text = head(gauge);
  listened_on = context.descriptor();
  for (const int end : {SIGINT, SIGTERM, SIGHUP}) std::signal(end, note_interrupt);
  TENTH_TRY(const Json begun, context.call("gauge.record", {{"gauge", words.gauge}, {"for_s", words.for_s}}));
  TENTH_TRY([[maybe_unused]] const bool writable, write_text(words.file, text));  // said now, not after the presses
  if (context.world.err_is_terminal)
    context.world.err << "recording " << words.gauge << " for " << words.for_s << " s; interrupt to end it\n"
                      << std::flush;
  std::int64_t began_ns = 0;
  std::optional<Refusal> cut_off;
  std::size_t pieces = 0;
  while (interrupted == 0) {
    const auto event = context.next_event();
    if (!event) {
      if (interrupted == 0) cut_off = event.error();
      break;  // what came is written all the same
    }
    if (event->at("event") == "recorded") break;
    if (event->at("event") == "lost")
      cut_off = Refusal{Exit::unreachable, "lost", "the daemon cut the recording off", "record for a shorter time"};
    if (cut_off) break;
    if (event->at("event") != "wire") continue;
    text += line(*event, began_ns);
    ++pieces;
  }
  TENTH_TRY(const bool written, write_text(words.file, text));
  if (cut_off) return tl::unexpected(*cut_off);
  if (context.options.json)
    context.print({{"gauge", words.gauge}, {"file", words.file}, {"pieces", pieces}, {"written", written}});
  else
    context.world.out << pieces << " pieces in " << words.file << '\n';
  return Exit::done;
}

Action declare_record(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("NAME", words->gauge, "The gauge")->required();
  app.add_option("FILE", words->file, "Where to write it")->required();
  app.add_option("--for", words->for_s, "Seconds to record at most")->type_name("S")->check(whole_from(1));
  return [words](Context& context) { return record(*words, context); };
}

}  // namespace

std::vector<Command> gauge_record_commands() {
  return {{"gauge record",
           "Write down what crosses a gauge's wire, with times",
           {"tenth gauge record mic mic.rec", "tenth gauge record mic mic.rec --for 10"},
           declare_record}};
}

}  // namespace tenth::cli
