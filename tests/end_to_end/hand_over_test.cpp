// What goes to the customer and to the machine shop: the record as PDF, the worksheet, the sheet.
#include <fstream>
#include <regex>
#include <sstream>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

std::string bytes_of(const std::filesystem::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

class HandOver : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("g", {"--unit", "mm"});
    for (const char* name : {"<script>alert(1)</script>", "b\x1b[2J"}) {
      done({"operator", "add", name});
      done({"operator", "use", name});
      press_at({"main_journal", "2"}, "g", line("53.987"));
    }
    press_at({"main_journal", "1"}, "g", line("53.9873"));
  }
  std::string made(Words words, const std::string& name) const {
    words.insert(words.end(), {"--output", home_ / name});
    done(words);
    return bytes_of(home_ / name);
  }
  std::string words_of(const std::string& name) const {
    const Ran ran = run({"pdftotext", "-layout", home_ / name, "-"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    return ran.out;
  }
  std::string size_of(const std::string& name) const {
    const Ran ran = run({"pdfinfo", home_ / name});
    std::smatch found;
    EXPECT_TRUE(std::regex_search(ran.out, found, std::regex("Page size: *(.*)\n"))) << ran.out << ran.err;
    return found.str(1);
  }
};

TEST_F(HandOver, TheSameLedgerGivesTheSameBytes) {
  for (const Words& words : {Words{"export", "--format", "pdf"}, Words{"export", "--format", "worksheet"},
                             Words{"sheet", "main_journal", "bore"}}) {
    const std::string first = made(words, "a.pdf");
    EXPECT_TRUE(first.starts_with("%PDF-"));
    EXPECT_EQ(first, made(words, "b.pdf")) << words[0];
  }
}

TEST_F(HandOver, PagesHoldNoScriptAndNoControlCharacters) {
  for (const Words& words : {Words{"export", "--format", "html"}, Words{"export", "--format", "worksheet"},
                             Words{"sheet", "main_journal", "bore"}}) {
    const std::string page = made(words, "a.html");
    EXPECT_TRUE(page.starts_with("<!")) << words[0];
    EXPECT_EQ(page.find("<script"), std::string::npos) << words[0];
    EXPECT_EQ(page.find('\x1b'), std::string::npos) << words[0];
    EXPECT_EQ(page, made(words, "b.html")) << words[0];
  }
}

TEST_F(HandOver, ThePdfBearsTheHeadOfTheChain) {
  const json head = asked({"status"})["ledger"];
  made({"export", "--format", "pdf"}, "a.pdf");
  EXPECT_NE(words_of("a.pdf").find(head["seq"].dump() + ":" + head["hash"].get<std::string>()), std::string::npos);
}

TEST_F(HandOver, PagesAreA4OrLetter) {
  made({"export", "--format", "pdf"}, "a.pdf");
  EXPECT_NE(size_of("a.pdf").find("A4"), std::string::npos);
  made({"export", "--format", "pdf", "--paper", "letter"}, "l.pdf");
  EXPECT_NE(size_of("l.pdf").find("letter"), std::string::npos);
  refused({"export", "--format", "pdf", "--paper", "a3", "--output", home_ / "x.pdf"}, 2);
  EXPECT_FALSE(std::filesystem::exists(home_ / "x.pdf"));
}

TEST_F(HandOver, NumbersAreThoseOfTheJsonToTheLastDigit) {
  made({"export", "--format", "pdf"}, "a.pdf");
  const std::string words = words_of("a.pdf");
  for (const json& reading : asked({"readings"}))
    EXPECT_NE(words.find(reading["size_mm"].dump()), std::string::npos) << reading["size_mm"];
  EXPECT_NE(words.find("<script>alert(1)</script>"), std::string::npos) << "as words";
  EXPECT_NE(words.find("b\\x1B[2J"), std::string::npos);
}

TEST_F(HandOver, TheWorksheetHasEveryPlaceAsImportWantsIt) {
  made({"export", "--format", "worksheet"}, "w.pdf");
  const std::string words = words_of("w.pdf");
  for (const char* word : {"feature", "index", "level", "axis", "value", "unit", "time", "operator", "gauge"})
    EXPECT_NE(words.find(word), std::string::npos) << word;
  const std::regex row("\n *4 +bottom +pin ");
  EXPECT_TRUE(std::regex_search(words, row)) << words;
  EXPECT_NE(words.find("oil_feed_clear"), std::string::npos);
  EXPECT_EQ(words.find("53.9873"), std::string::npos) << "it is blank";
}

TEST_F(HandOver, TheSheetSaysWhatIsAskedMeasuredAndWithWhat) {
  done({"send", "main_journal", "--to", "the grinder", "--ask", "polish only"});
  made({"sheet", "main_journal"}, "s.pdf");
  const std::string words = words_of("s.pdf");
  for (const char* word : {"polish only", "53.981", "54.000", "53.9873", "53.987"})
    EXPECT_NE(words.find(word), std::string::npos) << word << "\n" << words;
  EXPECT_EQ(words.find("ring_gap_top 1"), std::string::npos);
}

TEST_F(HandOver, WrongWords) {
  refused({"sheet"}, 2);
  refused({"sheet", "flywheel"}, 4);
  refused({"sheet", "main_journal", "--output", home_ / "nowhere" / "s.pdf"}, 4);
  refused({"export", "--format", "docx"}, 2);
  refused({"export", "--format", "pdf", "--output", home_ / "nowhere" / "r.pdf"}, 4);
  refused({"export", "--format", "pdf", "--engine", "nobody"}, 4);
}

}  // namespace
}  // namespace acceptance
