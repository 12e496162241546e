// Old tables taken in: RFC 4180 to the letter, all rows or none, the first wrong line named.
#include <csignal>
#include <fstream>
#include <thread>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

class Import : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
  }
  std::string table(const std::string& text) const { return write("table.csv", text); }
  static json all() { return asked({"readings", "--all"}); }
  /// The table is refused, nothing of it is stored, and the message names this line.
  void wrong_at(int wanted, const std::string& text) {
    const std::string why = refused({"import", table(text)}, 4);
    EXPECT_NE(why.find("table.csv:" + std::to_string(wanted) + ":"), std::string::npos) << text << "\n" << why;
    EXPECT_EQ(all(), json::array()) << text;
  }
};

const std::string three = "feature,index,value\r\n";

TEST_F(Import, RowsAreReadingsThatCount) {
  const std::string text =
      "feature,index,level,axis,value,unit,time,operator,gauge,note\r\n"
      "bore,1,top,thrust,86.010,mm,2025-03-01,ann,old gauge,\r\n"
      "piston,2,,,3.3838,in,,,,second\r\n";
  const json answer = asked({"import", table(text)});
  EXPECT_EQ(answer["kept"], 2);
  EXPECT_EQ(answer["sha256"], sha256_hex(text));
  const json rows = all();
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(place_of(rows[0]), "bore/1/top/thrust");
  EXPECT_EQ(rows[0]["size_mm"], 86.01);
  EXPECT_EQ(rows[0]["text"], "86.010");
  EXPECT_EQ(rows[0]["source"], "import");
  EXPECT_EQ(rows[0]["counts"], true);
  EXPECT_EQ(rows[0]["operator"], "ann");
  EXPECT_EQ(rows[0]["measured_at"], "2025-03-01");
  EXPECT_EQ(place_of(rows[1]), "piston/2");
  EXPECT_EQ(rows[1]["size_mm"], 85.94852);
  const auto kept = entries_of_kind(daemon_.ledger(), "import");
  ASSERT_EQ(kept.size(), 1U);
  EXPECT_NE(kept[0].body.find(sha256_hex(text)), std::string::npos) << "the file's hash is kept";
}

// A thousand events of one act are more than a watcher's bound, and come before it can read the first.
TEST_F(Import, ALongTableCutsOffNobodyWhoReads) {
  const std::string heard = (home_ / "heard").string();
  Child watcher({"/bin/sh", "-c", "exec \"$0\" --json watch > \"$1\"", tenth_path(), heard});
  const auto lines = [&heard](const std::string& word) {
    std::ifstream file(heard);
    int count = 0;
    for (std::string line; std::getline(file, line);) count += line.find(word) != std::string::npos ? 1 : 0;
    return count;
  };
  const auto until = in(std::chrono::seconds(30));
  while (lines("\"hello\"") == 0 && std::chrono::steady_clock::now() < until)
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  std::string rows = "feature,index,value,note\n";
  for (int i = 0; i < 1000; ++i) rows += "piston,1,85.950," + std::string(450, 'n') + "\n";
  EXPECT_EQ(asked({"import", table(rows)})["rows"].size(), 1000U);
  while (lines("\"reading\"") < 1000 && std::chrono::steady_clock::now() < until)
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
  EXPECT_EQ(lines("\"reading\""), 1000);
  EXPECT_EQ(lines("\"lost\""), 0);
  watcher.signal(SIGINT);
}

TEST_F(Import, PreviewStoresNothing) {
  const auto before = entries(daemon_.ledger()).size();
  const json answer = asked({"import", table(three + "piston,1,85.950\r\n"), "--preview"});
  EXPECT_EQ(answer["rows"].size(), 1U);
  EXPECT_TRUE(answer["import"].is_null());
  EXPECT_EQ(entries(daemon_.ledger()).size(), before);
}

TEST_F(Import, ReadsWhatRfc4180Allows) {
  for (const char* text : {
           "feature,index,value\npiston,1,85.950",  // LF, and none at the end
           "\xEF\xBB\xBF"
           "feature,index,value\r\npiston,1,85.950\r\n",  // a byte order mark
           "\"feature\",\"index\",\"value\"\r\n\"piston\",\"1\",\"85.950\"\r\n",
           "value,feature,index\r\n85.950,piston,1\r\n",  // in any order
           "feature,index,value,note\r\npiston,1,85.950,\"a \"\"b\"\", c\r\nd\"\r\n",
           "feature;index;value\r\npiston;1;85,950\r\n",  // decimal commas
           "feature;index;value;unit\r\npiston;1;\"85,950\";mm\r\n",
           "feature,index,value\r\npiston,1,\"85,95\"\r\n",  // here it cannot be mistaken
       }) {
    const json answer = asked({"import", table(text)});
    ASSERT_EQ(answer["seqs"].size(), 1U) << text;
    const json row = reading_of(all(), answer["seqs"][0]);
    EXPECT_EQ(row["size_mm"], 85.95) << text;
    EXPECT_EQ(row["state"], "kept") << text;
    EXPECT_EQ(place_of(row), "piston/1") << text;
  }
}

TEST_F(Import, TheFirstWrongLineIsNamedAndNothingIsTaken) {
  wrong_at(1, "");
  wrong_at(1, "index,value\r\n1,85.950\r\n");
  wrong_at(1, "feature,index\r\npiston,1\r\n");
  wrong_at(1, "feature,index,value,colour\r\npiston,1,85.950,red\r\n");
  wrong_at(1, "feature,index,value,value\r\npiston,1,85.950,1\r\n");
  wrong_at(3, three + "piston,1,85.950\r\nflywheel,1,85.950\r\n");
  wrong_at(2, three + "piston,9,85.950\r\n");
  wrong_at(2, three + "piston,1,wide\r\n");
  wrong_at(2, three + "piston,1,\r\n");
  wrong_at(2, three + "piston,1\r\n");
  wrong_at(2, three + "piston,1,85.950,mm\r\n");
  wrong_at(2, three + "piston,1,\"85.950\r\n");
  wrong_at(2, three + "piston,1,85\".950\r\n");
  wrong_at(2, three + "piston,1,\"85.950\"x\r\n");
  wrong_at(2, three + "oil_feed_clear,1,yes\r\n");
  wrong_at(2, "feature,index,value,unit\r\npiston,1,85.950,furlong\r\n");
  wrong_at(2, "feature,index,value,time\r\npiston,1,85.950,2025-02-30\r\n");
  wrong_at(5, "feature,index,value,note\r\npiston,1,85.950,\"a\r\nb\r\nc\"\r\npiston,2,wide,\r\n");
}

TEST_F(Import, ACommaOrPointThatMayPartThousandsIsRefused) {
  wrong_at(2, three + "piston,1,\"85,950\"\r\n");
  wrong_at(2, "feature;index;value\r\npiston;1;85.950\r\n");
  wrong_at(2, "feature;index;value\r\npiston;1;1.085,950\r\n");
}

TEST_F(Import, WhatIsNoTableIsOneLine) {
  refused({"import", home_ / "nowhere.csv"}, 4);
  refused({"import", home_}, 4);
  refused({"import", "/dev/zero"}, 4);
  refused({"import"}, 2);
  refused({"import", table(three + "piston,1,85.95\xff\r\n")}, 4);
  refused({"import", table(three + "piston,1,85.95" + std::string(1, '\0') + "\r\n")}, 4);
  refused({"import", table(three + "piston,1," + std::string(700'000, '9') + "\r\n")}, 4);
  EXPECT_EQ(all(), json::array());
  EXPECT_TRUE(daemon_.running());
}

TEST_F(Import, RowsAreDoubtedLikeReadings) {
  done({"gauge", "add", "bore-hand", "--port", "hand", "--profile", "line", "--measures", "inside", "--unit", "mm"});
  done({"import",
        table("feature,index,value,gauge\r\npiston,1,8.595,\r\npiston,2,-85.950,\r\npiston,3,85.950,bore-hand\r\n"
              "piston,4,85.950,unknown\r\n")});
  const json rows = all();
  ASSERT_EQ(rows.size(), 4U);
  EXPECT_EQ(doubts_of(rows[0]), "range tenfold");
  EXPECT_EQ(doubts_of(rows[1]), "range");
  EXPECT_EQ(doubts_of(rows[2]), "wrong_kind");
  EXPECT_EQ(rows[3]["state"], "kept");
}

TEST_F(Import, HostileCellsStayWords) {
  done({"import",
        table("feature,index,value,operator,gauge,note\r\npiston,1,85.950,=1+1,<script>x</script>,\x1b[31m\r\n")});
  EXPECT_EQ(all()[0]["operator"], "=1+1");
  const std::string csv = done({"export", "--format", "csv"});
  EXPECT_NE(csv.find(",'=1+1,"), std::string::npos) << csv;
  EXPECT_EQ(done({"export", "--format", "html"}).find("<script"), std::string::npos);
  EXPECT_EQ(done({"readings", "--all"}).find('\x1b'), std::string::npos);
}

TEST_F(Import, WithoutAnEngineItIsRefused) {
  daemon_.kill();
  std::filesystem::remove_all(daemon_.state());
  std::filesystem::create_directory(daemon_.state());
  daemon_.start();
  refused({"import", table(three + "piston,1,85.950\r\n")}, 4);
}

}  // namespace
}  // namespace acceptance
