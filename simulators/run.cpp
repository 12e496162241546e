#include "simulators/run.hpp"

#include <fstream>
#include <ostream>
#include <sstream>

#include "simulators/loop.hpp"
#include "simulators/options.hpp"

namespace tenth::simulators {

namespace {

Result<Scenario> load(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::ostringstream text;
  if (stream) text << stream.rdbuf();
  if (!stream || !text) return tl::unexpected(file.string() + ": cannot be read: name a scenario file");
  return parse_scenario(text.str(), file.string());
}

int wrong(std::ostream& err, const std::string& what) {
  err << "tenth-sim: " << what << std::endl;
  return 2;
}

int play(const Options& options, std::ostream& out, std::ostream& err) {
  const auto scenario = load(options.scenario);
  if (!scenario) return wrong(err, scenario.error());
  const Signals signals;
  std::unique_ptr<Control> control;
  if (options.control) {
    auto opened = Control::open(*options.control);
    if (!opened) return wrong(err, opened.error());
    control = std::move(*opened);
  }
  auto player = Player::open(*scenario, options.folder, Clock::now());
  if (!player) {
    err << "tenth-sim: " << player.error() << std::endl;
    return 1;
  }
  return Loop(*scenario, std::move(*player), std::move(control), out, err).run(signals);
}

}  // namespace

int run(std::span<const std::string_view> words, std::ostream& out, std::ostream& err) {
  const auto options = parse_options(words);
  if (!options) return wrong(err, options.error());
  if (options->help) {
    out << help();
  } else if (options->version) {
    out << "tenth-sim " << TENTH_VERSION << "\n";
  } else {
    return play(*options, out, err);
  }
  return 0;
}

}  // namespace tenth::simulators
