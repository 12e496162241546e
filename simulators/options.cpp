#include "simulators/options.hpp"

namespace tenth::simulators {

Result<Options> parse_options(std::span<const std::string_view> words) {
  Options options;
  std::optional<std::string_view> folder;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto word = words[i];
    const bool valued = word == "--dir" || word == "--control";
    if (valued && i + 1 == words.size()) return tl::unexpected(std::string(word) + " wants a path after it");
    if (word == "--help" || word == "-h") {
      options.help = true;
    } else if (word == "--version") {
      options.version = true;
    } else if (word == "--dir") {
      folder = words[++i];
    } else if (word == "--control") {
      options.control = words[++i];
    } else if (word.starts_with('-')) {
      return tl::unexpected("unknown option '" + std::string(word) +
                            "': known are --dir, --control, --help, --version");
    } else if (!options.scenario.empty()) {
      return tl::unexpected("'" + std::string(word) + "' is one scenario too many: name one");
    } else {
      options.scenario = word;
    }
  }
  if (options.scenario.empty() && !options.help && !options.version) {
    return tl::unexpected(std::string("no scenario: name its file, as in tenth-sim SCENARIO.toml"));
  }
  options.folder = folder ? std::filesystem::path(*folder) : options.scenario.parent_path();
  return options;
}

std::string_view help() {
  return R"(tenth-sim: simulated gauges on pseudo-terminals and TCP

Usage: tenth-sim SCENARIO.toml [--dir DIR] [--control FIFO | --control -]

Opens the gauges that the scenario describes, each under the path it names, prints
"ready", plays the acts of the scenario, and ends; with `stay = true` or a control it
stays until SIGTERM, SIGINT or `quit`. The file's format: simulators/README.md.

  --dir DIR       paths that are not absolute lie here (else beside the scenario)
  --control FIFO  take acts from this FIFO, one a line (made where it is missing);
                  - takes them from standard input, until its end
  --help, --version

Acts in the control, each answered by a line "ok ..." or "error: ...":
  press GAUGE [VALUE] [in mm|in] [status TEXT] [half|doubled|dropped|noisy]
                             without VALUE: the next of its list
  hold GAUGE VALUE | approach GAUGE VALUE [over_ms MS]
  rock GAUGE VALUE [passes N] [amplitude A] [period_ms P] [noise N]
  stream GAUGE start|stop    frames of what it shows
  drift GAUGE AMOUNT         the zero moves
  switch GAUGE mm|in
  raw GAUGE BYTES            \xHH \r \n \t \\ and letters as they are
  noise GAUGE BYTES | endless GAUGE BYTES | flood GAUGE BYTES_PER_SECOND SECONDS [frames]
  spoil GAUGE half|doubled|dropped|noisy|crc|transaction|exception CODE
                             the next answer, or frame of a stream
  delay GAUGE MILLISECONDS | mute GAUGE | unmute GAUGE
  hangup GAUGE | return GAUGE
  go                         ends a `wait told` of the scenario
  quit

Examples:
  tenth-sim engine.toml
  tenth-sim bench.toml --control -                       type acts, such as press bore-gauge 83.012
  tenth-sim bench.toml --control /tmp/thumb &   echo 'press bore-gauge' > /tmp/thumb

Exit status: 0 played; 1 an act could not be done; 2 the words or the scenario are wrong.
)";
}

}  // namespace tenth::simulators
