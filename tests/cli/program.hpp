#pragma once

#include <map>
#include <string>
#include <vector>

#include "tests/cli/fake_daemon.hpp"

namespace tenth::cli {

/// What a run of the program left behind.
struct Outcome {
  int exit = -1;
  std::string out, err;
  Json json() const { return Json::parse(out); }
  Json error() const { return Json::parse(err); }
};

/// Who sits at the program.
struct Seat {
  std::string typed = {};
  bool in_is_terminal = false, out_is_terminal = false, err_is_terminal = false;
  std::map<std::string, std::string> environment = {};
};

/// The whole program in this process: its words in, its outcome out.
Outcome run_program(const std::vector<std::string>& words, const Seat& seat = {});

/// The same, with TENTH_SOCKET naming the daemon.
Outcome run_at(const FakeDaemon& daemon, const std::vector<std::string>& words, Seat seat = {});

std::vector<std::string> lines_of(const std::string& text);

}  // namespace tenth::cli
