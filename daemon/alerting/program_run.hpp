#pragma once

#include <boost/asio/awaitable.hpp>
#include <chrono>
#include <string>
#include <vector>

#include "rules/result.hpp"

namespace tenth {

/// How a program ended.
struct ProgramEnd {
  int status = 0;       ///< its exit status; 128 and the signal's number where one ended it
  bool killed = false;  ///< by us, when its time was over
  std::string said;     ///< the beginning of what it wrote to its outputs
};

/// Of what a program says so much is kept, in bytes; the rest is read and thrown away.
inline constexpr std::size_t kMostSaid = 1024;

/// Runs a program with arguments, no shell between: `input` on its standard input, nothing else of ours open, in a
/// process group of its own, which is killed where the program still runs after `limit`. The loop goes on meanwhile.
/// Refused (`program`): it cannot be started.
boost::asio::awaitable<Result<ProgramEnd>> run_program(std::vector<std::string> words, std::string input,
                                                       std::chrono::milliseconds limit);

}  // namespace tenth
