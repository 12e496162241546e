#pragma once

#include <string>

#include "cli/command.hpp"
#include "schema/export/paper/paper.hpp"

namespace tenth::cli {

/// Where something made goes, and on which sheet it is printed.
struct Output {
  std::string file;  ///< empty: standard output
  std::string sheet = "a4";

  /// The file's name ends so: what is to be read then is a PDF.
  bool is_pdf() const;
};

/// `--output` and `--paper`.
void declare_output(CLI::App& app, Output& output);

/// A paper as HTML or PDF; counts pages aloud.
std::string laid_out(Context& context, const paper::Paper& paper, bool as_pdf, const Output& output);

/// Writes it, and says so where it went to a file: "k31.csv: csv, 1234 bytes".
Result<Exit> hand_over(Context& context, const Output& output, const std::string& format, const std::string& text);

}  // namespace tenth::cli
