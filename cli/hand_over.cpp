#include "cli/hand_over.hpp"

#include <ostream>

#include "cli/files.hpp"
#include "cli/progress.hpp"
#include "cli/words.hpp"
#include "schema/export/exports.hpp"

namespace tenth::cli {

bool Output::is_pdf() const {
  return file.ends_with(".pdf") || file.ends_with(".PDF");
}

void declare_output(CLI::App& app, Output& output) {
  app.add_option("--paper", output.sheet, "The sheet of a pdf, a4 or letter; it prints on both")
      ->check(one_of({"a4", "letter"}))
      ->capture_default_str();
  app.add_option("--output", output.file, "The file to write; else standard output")->type_name("FILE");
}

std::string laid_out(Context& context, const paper::Paper& paper, bool as_pdf, const Output& output) {
  if (!as_pdf) return html(paper);
  Progress progress(context.world);
  return pdf(paper, output.sheet == "letter" ? paper::Sheet::letter : paper::Sheet::a4,
             [&](int page, int of) { progress.pages(page, of); });
}

Result<Exit> hand_over(Context& context, const Output& output, const std::string& format, const std::string& text) {
  const bool to_output = output.file.empty() || output.file == "-";
  if (to_output && format == "pdf" && context.world.out_is_terminal)
    return wrong_words("output", "a PDF is nothing to read on a terminal", "name a file with --output FILE");
  if (to_output) {
    context.world.out << text << std::flush;
    return Exit::done;
  }
  TENTH_TRY(const bool written, write_text(output.file, text));
  if (context.options.json)
    context.print({{"file", output.file}, {"format", format}, {"bytes", text.size()}});
  else if (written)
    context.world.out << output.file << ": " << format << ", " << text.size() << " bytes\n";
  return Exit::done;
}

}  // namespace tenth::cli
