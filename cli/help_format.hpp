#pragma once

#include <CLI/CLI.hpp>

namespace tenth::cli {

/// Help without the parser's counts and types: how many words a thing takes is said by its name, as in `[INDEX]`,
/// `FEATURE...` or `--shells UPPER LOWER`.
class HelpFormat : public CLI::Formatter {
 public:
  std::string make_option_opts(const CLI::Option* option) const override;
  std::string make_option_usage(const CLI::Option* option) const override;
};

}  // namespace tenth::cli
