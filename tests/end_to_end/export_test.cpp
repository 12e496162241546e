// What is handed over: CSV by its rules and a page of its own.
#include <sys/stat.h>

#include <cstdlib>
#include <fstream>
#include <regex>
#include <sstream>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/csv.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

std::string contents(const std::filesystem::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

/// What somebody would copy out of a PDF.
std::string words_of(const std::filesystem::path& pdf) {
  const std::filesystem::path text = pdf.string() + ".txt";
  EXPECT_EQ(std::system(("pdftotext '" + pdf.string() + "' '" + text.string() + "'").c_str()), 0);
  return contents(text);
}

class Export : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("g", {"--unit", "mm", "--measures", "inside"});
  }
  std::string exported(const std::string& format) {
    const std::filesystem::path file = home_ / ("record." + format);
    done({"export", "--format", format, "--output", file});
    return contents(file);
  }
};

TEST_F(Export, CsvHasARowForEveryReadingInOrder) {
  const json kept = press_at({"bore", "1", "top", "pin"}, "g", line("+86.010"));
  const json lost = press_at({"bore", "1", "top", "thrust"}, "g", line("8.6010"));
  const json gone = press_at({"bore", "2", "top", "pin"}, "g", line("86.0125"));
  done({"void", gone["seq"].dump(), "--reason", "said \"twice\", and\nmeant it"});
  const std::string text = exported("csv");
  EXPECT_EQ(text, done({"export", "--format", "csv"}));
  const auto rows = read_csv(text);
  const Row columns{"seq",         "time",   "engine",     "feature", "index",  "level",    "axis",
                    "operator",    "gauge",  "raw",        "text",    "unit",   "value_mm", "size_mm",
                    "size_20c_mm", "state",  "hash",       "label",   "stage",  "counts",   "doubts",
                    "reason",      "source", "moved_from", "setting", "closed", "overdue"};
  ASSERT_EQ(rows.size(), 4U);
  ASSERT_GE(rows[0].size(), columns.size());
  EXPECT_EQ(Row(rows[0].begin(), rows[0].begin() + static_cast<long>(columns.size())), columns);
  const auto named = by_column(rows);
  EXPECT_EQ(named[0].at("seq"), kept["seq"].dump());
  EXPECT_EQ(named[0].at("text"), "+86.010") << "a number is left alone";
  EXPECT_EQ(named[0].at("size_mm"), "86.01");
  EXPECT_EQ(named[0].at("size_20c_mm"), "");
  EXPECT_EQ(named[0].at("operator"), "");
  EXPECT_EQ(named[0].at("counts"), "true");
  EXPECT_EQ(kept["hash"], named[0].at("hash"));
  EXPECT_EQ(named[1].at("seq"), lost["seq"].dump());
  EXPECT_EQ(named[1].at("state"), "suspect");
  EXPECT_TRUE(named[1].at("doubts") == "range tenfold" || named[1].at("doubts") == "tenfold range");
  EXPECT_EQ(named[2].at("state"), "void");
  EXPECT_EQ(named[2].at("reason"), "said \"twice\", and\nmeant it");
}

TEST_F(Export, CsvDisarmsFormulas) {
  for (const char* name : {"=1+1", "@SUM(A1)", "-2+3", "+cmd|' /C calc'!A0"}) {
    done({"operator", "add", "--", name});
    done({"operator", "use", "--", name});
    press_at({"bore", "1", "top", "pin"}, "g", line("-86.010"));
    done({"undo"});
  }
  const json last = press_at({"bore", "1", "top", "pin"}, "g", line("86.010"));
  done({"void", last["seq"].dump(), "--reason", "=HYPERLINK(\"x\")"});
  const auto rows = by_column(read_csv(exported("csv")));
  ASSERT_EQ(rows.size(), 5U);
  EXPECT_EQ(rows[0].at("operator"), "'=1+1");
  EXPECT_EQ(rows[1].at("operator"), "'@SUM(A1)");
  EXPECT_EQ(rows[2].at("operator"), "'-2+3");
  EXPECT_EQ(rows[3].at("operator"), "'+cmd|' /C calc'!A0");
  EXPECT_EQ(rows[0].at("text"), "-86.010");
  EXPECT_EQ(rows[0].at("value_mm"), "-86.01");
  EXPECT_EQ(rows[4].at("reason"), "'=HYPERLINK(\"x\")");
}

TEST_F(Export, CsvIsOfOneEngine) {
  press_at({"bore", "1", "top", "pin"}, "g", line("86.010"));
  engine(single, "E2");
  press_at({"bore"}, "g", line("70.010"));
  EXPECT_EQ(read_csv(exported("csv")).size(), 2U);
  EXPECT_EQ(by_column(read_csv(done({"export", "--engine", "E1", "--format", "csv"})))[0].at("engine"), "E1");
}

TEST_F(Export, ThePageStandsByItself) {
  done({"operator", "add", "<script>alert(1)</script>"});
  done({"operator", "use", "<script>alert(1)</script>"});
  press_at({"bore", "1", "top", "pin"}, "g", line("86.010"));
  const std::string page = exported("html");
  EXPECT_TRUE(page.starts_with("<!") || page.starts_with("<html")) << page.substr(0, 80);
  EXPECT_EQ(page.find("<script"), std::string::npos);
  EXPECT_FALSE(std::regex_search(page, std::regex("(src|href|action) *= *[\"']?(https?:|//)")));
  EXPECT_TRUE(std::regex_search(page, std::regex("[Pp]iston[_ ]clearance")));
  EXPECT_FALSE(std::regex_search(page, std::regex("@import|url\\( *[\"']?(https?:|//)")));
  for (const char* word : {"E1", "bore", "clearance", "alert(1)"})
    EXPECT_NE(page.find(word), std::string::npos) << word;
  const json head = asked({"status"})["ledger"];
  EXPECT_NE(page.find(head["hash"].get<std::string>()), std::string::npos) << "the head of the chain";
}

TEST_F(Export, ANoteIsToldKeptAndHandedOver) {
  done({"operator", "add", "ann"});
  done({"at", "bore", "1", "top", "pin"});
  const json answer = asked({"note", "scratch <here>, 2 o'clock"});
  const json told = watch_->next("note");
  EXPECT_EQ(told["seq"], answer["seq"]);
  EXPECT_EQ(place_of(told), "bore/1/top/pin");
  EXPECT_EQ(told["operator"], "ann");
  EXPECT_NE(exported("html").find("note at bore 1 top pin: scratch &lt;here&gt;, 2 o&#39;clock"), std::string::npos);
  const json record = json::parse(exported("json"));
  const json body = json::parse(pick(record["entries"], {{"seq", answer["seq"]}})["body"].get<std::string>());
  EXPECT_EQ(body["text"], "scratch <here>, 2 o'clock");
  done({"audit", "--record", home_ / "record.json"});
}

TEST_F(Export, PaperIsTheSameToTheByteAndSaysWhatTheRecordSays) {
  const json kept = press_at({"bore", "1", "top", "pin"}, "g", line("+86.0125"));
  const std::string paper = exported("pdf");
  EXPECT_EQ(paper, exported("pdf"));
  EXPECT_EQ(exported("html"), exported("html"));
  done({"sheet", "bore", "--output", home_ / "bore.pdf"});
  done({"export", "--format", "worksheet", "--output", home_ / "blank.pdf"});
  const std::string head = asked({"status"})["ledger"]["hash"];
  for (const char* file : {"record.pdf", "bore.pdf", "blank.pdf"}) {
    const std::string text = words_of(home_ / file);
    EXPECT_NE(text.find(head), std::string::npos) << file;
    EXPECT_NE(text.find("page 1 of "), std::string::npos) << file;
    EXPECT_EQ(text.find("86.0125") != std::string::npos, file != std::string("blank.pdf")) << file;
  }
  EXPECT_NE(words_of(home_ / "record.pdf").find(kept["seq"].dump()), std::string::npos);
  refused({"sheet", "nothing"}, 4);
}

TEST_F(Export, AFileThatCannotBeWrittenIsOneLineAndLeavesNothing) {
  refused({"export", "--format", "csv", "--output", home_ / "nowhere" / "x.csv"}, 4);
  const std::filesystem::path old = write("old.csv", "what was there");
  done({"export", "--format", "csv", "--output", old});
  EXPECT_NE(contents(old), "what was there");
  for (const auto& entry : std::filesystem::directory_iterator(home_)) {
    EXPECT_EQ(entry.path().string().find(".tmp"), std::string::npos) << entry.path();
  }
}

}  // namespace
}  // namespace acceptance
