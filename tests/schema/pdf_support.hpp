#pragma once

#include <string>
#include <vector>

#include "tests/support/folder.hpp"

namespace tenth {

/// A PDF on disk for as long as it is looked at, with the tools of poppler-utils and zbar-tools.
class PdfFile {
 public:
  explicit PdfFile(const std::string& bytes);

  int pages() const;
  std::string size() const;  ///< "595.276 x 841.89 pts (A4)"
  std::string text() const;  ///< all words, as somebody would copy them, one blank between
  std::string text(int page) const;
  std::vector<std::string> codes(int page) const;  ///< what its QR codes say

  struct Word {
    double left, top, right, bottom;  ///< in points, from the upper left corner of its page
    std::string text;
  };
  std::vector<Word> words() const;

 private:
  std::string output_of(const std::string& command) const;
  Folder folder_;
};

}  // namespace tenth
