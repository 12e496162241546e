#include <gtest/gtest.h>

#include "schema/import/csv_text.hpp"
#include "schema/import/import_file.hpp"
#include "schema/spec/spec_file.hpp"

namespace tenth {
namespace {

const Spec& twin() {
  static const Spec spec = *parse_spec(R"(
unit = "mm"
[layout]
cylinders = 2
labels = ["L1", "R1"]
[feature.bore]
count = "cylinders"
kind = "inside"
limits = [83.000, 83.035]
levels = ["top", "bottom"]
[feature.crank_end]
kind = "outside"
limits = [30.0, 30.1]
[feature.clean]
kind = "check"
)",
                                       "twin.toml");
  return spec;
}

Result<std::vector<ImportRow>> read(const std::string& text, Unit bare = Unit::mm) {
  return read_import(text, "old.csv", twin(), bare);
}

std::string refused(const std::string& text) {
  const auto rows = read(text);
  EXPECT_FALSE(rows);
  return rows ? "" : rows.error().message + " | " + rows.error().remedy;
}

Length mm_of(const char* text) {
  return *parse_length(text, Unit::mm);
}

TEST(ImportFile, HasSoManyRowsAndNoMore) {
  std::string table = "feature,value\n";
  for (std::size_t row = 0; row < kMostImportRows; ++row) table += "crank_end,30.05\n";
  EXPECT_EQ(read(table)->size(), kMostImportRows);
  EXPECT_EQ(refused(table + "crank_end,30.05\n"), "old.csv:1002: more than 1000 rows | bring the table in parts");
}

TEST(CsvText, IsReadAsRfc4180Says) {  // RFC 4180, section 2: quotes, doubled quotes, separators and breaks within them
  const auto rows = csv_rows("a,b\r\n\"x,\"\"y\"\"\r\nz\",2\r\n\r\nlast,\n", ',', "f");
  ASSERT_TRUE(rows);
  ASSERT_EQ(rows->size(), 3u);
  EXPECT_EQ((*rows)[1].cells, (std::vector<std::string>{"x,\"y\"\r\nz", "2"}));
  EXPECT_EQ((*rows)[1].line, 2);
  EXPECT_EQ((*rows)[2].line, 5);
  EXPECT_EQ((*rows)[2].cells, (std::vector<std::string>{"last", ""}));
}

TEST(CsvText, AnOpenOrAStrayQuoteNamesItsLine) {
  EXPECT_EQ(csv_rows("a\n\"b\nc", ',', "f").error().message, "f:2: a quote is opened and never closed");
  EXPECT_EQ(csv_rows("a\nb\"c\n", ',', "f").error().message, "f:2: a quote stands within a cell");
  EXPECT_EQ(csv_rows("\"a\"b\n", ',', "f").error().message, "f:1: text follows the closing quote");
}

TEST(Import, ReadsColumnsInAnyOrderAndPlacesAsInACommand) {
  const auto rows = read(
      "value,level,feature,index,unit,gauge,note\n83.012,t,bore,R1,mm,old dial,\"as, "
      "written\"\n3.2682,bottom,bore,L1,in,,\n");
  ASSERT_TRUE(rows) << rows.error().message;
  ASSERT_EQ(rows->size(), 2u);
  EXPECT_EQ((*rows)[0].place, (Place{"bore", 2, "top", ""}));
  EXPECT_EQ((*rows)[0].gauge, "old dial");
  EXPECT_EQ((*rows)[0].note, "as, written");
  EXPECT_EQ((*rows)[1].value, mm_of("83.01228"));
  EXPECT_EQ((*rows)[1].unit, Unit::in);
  EXPECT_EQ((*rows)[1].line, 3);
}

TEST(Import, BareNumbersAreInTheUnitGiven) {
  EXPECT_EQ(read("feature,value\ncrank_end,1.1835\n", Unit::in)->front().value, mm_of("30.0609"));
}

TEST(Import, WithSemicolonsTheDecimalMarkIsAComma) {
  const auto rows = read(
      "\xEF\xBB\xBF"
      "feature;value\r\ncrank_end;30,05\r\ncrank_end;30,061\r\ncrank_end;0.5\r\n");
  ASSERT_TRUE(rows) << rows.error().message;
  EXPECT_EQ((*rows)[0].value, mm_of("30.05"));
  EXPECT_EQ((*rows)[1].value, mm_of("30.061"));
  EXPECT_EQ((*rows)[2].value, mm_of("0.5"));
  EXPECT_EQ((*rows)[1].text, "30,061");
}

TEST(Import, AMarkThatMayPartThousandsIsRefused) {
  EXPECT_EQ(refused("feature;value\ncrank_end;30.061\n"),
            "old.csv:2: '30.061' has a point where this table has decimal commas | write the decimal mark as a comma, "
            "and no other mark");
  EXPECT_EQ(refused("feature;value\ncrank_end;1.030,5\n").substr(0, 11), "old.csv:2: ");
  EXPECT_NE(refused("feature,value\ncrank_end,\"30,061\"\n").find("may be meant with a decimal comma or in thousands"),
            std::string::npos);
}

TEST(Import, EachThingWrongIsToldWithItsLine) {
  EXPECT_EQ(refused("feature,size\n"),
            "old.csv:1: there is no column 'size' | the columns are feature, index, level, axis, value, unit, time, "
            "operator, gauge, note");
  EXPECT_EQ(refused("featur,value\n"), "old.csv:1: there is no column 'featur' | did you mean feature?");
  EXPECT_EQ(refused("feature,value,value\n").substr(0, 44), "old.csv:1: column value stands there twice |");
  EXPECT_EQ(refused("feature\ncrank_end\n"), "old.csv:1: column value is missing | add it to the first line");
  EXPECT_EQ(refused("feature,value\n"), "old.csv:1: there is no row below the header | add one row for each figure");
  EXPECT_EQ(refused("feature,value\ncrank_end,30.05\ncrank_end\n").substr(0, 52),
            "old.csv:3: the line has 1 cells, the header 2 | give");
  EXPECT_EQ(refused("feature,value\ncrank_end,thirty\n").substr(0, 31), "old.csv:2: 'thirty' is no lengt");
  EXPECT_EQ(refused("feature,value\nclean,1\n").substr(0, 36), "old.csv:2: clean is a check and has ");
  EXPECT_EQ(refused("feature,value\nbore,83.01\n").substr(0, 11), "old.csv:2: ");
  EXPECT_EQ(refused("feature,value,time\ncrank_end,30.05,yesterday\n").substr(0, 33),
            "old.csv:2: 'yesterday' is no time");
  EXPECT_EQ(refused("feature,value\ncrank_end,30.05\xB5m\n").substr(0, 29), "old.csv:2: that is no text | ");
  EXPECT_EQ(refused("").substr(0, 32), "old.csv:1: there is nothing in i");
}

TEST(Import, TimesAreDaysOrRfc3339) {
  EXPECT_TRUE(
      read("feature,value,time\ncrank_end,30.05,2026-03-01\ncrank_end,30.05,2026-03-01T08:15:00Z\ncrank_end,30.05,\n"));
}

}  // namespace
}  // namespace tenth
