#include "pdf_support.hpp"

#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>
#include <stdexcept>

namespace tenth {
namespace {

std::string with_single_blanks(const std::string& text) {
  std::istringstream words(text);
  std::string out;
  for (std::string word; words >> word;) out += (out.empty() ? "" : " ") + word;
  return out;
}

std::string field(const std::string& info, const std::string& name) {
  const auto from = info.find(name + ":");
  return with_single_blanks(info.substr(from + name.size() + 1, info.find('\n', from) - from - name.size() - 1));
}

}  // namespace

PdfFile::PdfFile(const std::string& bytes) {
  std::ofstream(folder_ / "a.pdf", std::ios::binary) << bytes;
}

std::string PdfFile::output_of(const std::string& command) const {
  FILE* pipe = popen(("cd " + folder_.path().string() + " && " + command + " 2>/dev/null").c_str(), "r");
  std::string out(1 << 16, '\0');
  std::string all;
  while (const std::size_t count = fread(out.data(), 1, out.size(), pipe)) all.append(out, 0, count);
  if (pclose(pipe) != 0) throw std::runtime_error(command + " failed: are poppler-utils and zbar-tools there?");
  return all;
}

int PdfFile::pages() const {
  return std::stoi(field(output_of("pdfinfo a.pdf"), "Pages"));
}

std::string PdfFile::size() const {
  return field(output_of("pdfinfo a.pdf"), "Page size");
}

std::string PdfFile::text() const {
  return with_single_blanks(output_of("pdftotext a.pdf -"));
}

std::string PdfFile::text(int page) const {
  const std::string number = std::to_string(page);
  return with_single_blanks(output_of("pdftotext -f " + number + " -l " + number + " a.pdf -"));
}

std::vector<std::string> PdfFile::codes(int page) const {
  const std::string number = std::to_string(page);
  std::istringstream lines(
      output_of("pdftoppm -r 150 -gray -f " + number + " -l " + number + " a.pdf p && zbarimg --raw -q p-*.pgm"));
  std::vector<std::string> codes;
  for (std::string line; std::getline(lines, line);) codes.push_back(line);
  return codes;
}

std::vector<PdfFile::Word> PdfFile::words() const {
  static const std::regex pattern(R"re(<word xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax="(.*?)">(.*?)</word>)re");
  const std::string markup = output_of("pdftotext -bbox a.pdf -");
  std::vector<Word> words;
  for (std::sregex_iterator at(markup.begin(), markup.end(), pattern), end; at != end; ++at)
    words.push_back({std::stod((*at)[1]), std::stod((*at)[2]), std::stod((*at)[3]), std::stod((*at)[4]), (*at)[5]});
  return words;
}

}  // namespace tenth
