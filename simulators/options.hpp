#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "simulators/amount.hpp"

namespace tenth::simulators {

struct Options {
  std::filesystem::path scenario;
  std::filesystem::path folder;        ///< where paths that are not absolute lie
  std::optional<std::string> control;  ///< "-" for standard input, else the path of a FIFO
  bool help = false, version = false;
};

/// The words after the program's name.
Result<Options> parse_options(std::span<const std::string_view> words);

std::string_view help();

}  // namespace tenth::simulators
