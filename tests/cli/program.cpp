#include "tests/cli/program.hpp"

#include <sstream>

#include "cli/run.hpp"

namespace tenth::cli {

Outcome run_program(const std::vector<std::string>& words, const Seat& seat) {
  std::istringstream in(seat.typed);
  std::ostringstream out, err;
  const auto variable = [&seat](const std::string& name) {
    const auto found = seat.environment.find(name);
    return found == seat.environment.end() ? std::string() : found->second;
  };
  World world{in, out, err, seat.in_is_terminal, seat.out_is_terminal, seat.err_is_terminal, variable};
  const int exit = run(words, world);
  return {exit, out.str(), err.str()};
}

Outcome run_at(const FakeDaemon& daemon, const std::vector<std::string>& words, Seat seat) {
  seat.environment["TENTH_SOCKET"] = daemon.path();
  return run_program(words, seat);
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

}  // namespace tenth::cli
