#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <functional>
#include <sstream>

#include "schema/export/exports.hpp"
#include "tests/cli/program.hpp"
#include "tests/cli/small_ledger.hpp"

namespace tenth::cli {
namespace {

class Export : public testing::Test {
 protected:
  explicit Export(std::size_t page = 2) {
    daemon.answers_by("entries", [this, page](const Json& params) { return ledger.entries(params, page); });
  }
  Outcome run(std::vector<std::string> more) {
    more.insert(more.begin(), "export");
    return run_at(daemon, more);
  }
  SmallLedger ledger;
  FakeDaemon daemon;
};

std::string read(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

TEST_F(Export, ReadsAllPagesAndMakesARecordThatCanBeVerified) {
  const auto outcome = run({"--format", "json"});
  ASSERT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(outcome.json().at("engine"), "K31");
  EXPECT_EQ(outcome.json().at("head").at("seq"), 5);
  EXPECT_EQ(outcome.json().at("head").at("hash"), hex(ledger.head().hash));
  EXPECT_TRUE(audit_record(outcome.out).value().ok);
  EXPECT_EQ(daemon.calls(), (std::vector<std::string>{"hello", "entries", "entries", "entries"}));
  EXPECT_EQ(daemon.asked("entries"), (Json{{"from", 5}, {"most", 500}}));
}

TEST_F(Export, NamesTheOperatorInUseAsMaker) {
  ledger.append("operator_use", {{"name", "Ada"}, {"gauge", nullptr}});
  EXPECT_EQ(run({"--format", "json"}).json().at("made_by"), "Ada");
}

TEST_F(Export, TakesNoRowsThatCameAfterItBegan) {
  daemon.answers_by("entries", [this](const Json& params) {
    auto answer = ledger.entries(params, 2);
    if (params.at("from") == 1) ledger.append("operator", {{"name", "Ben"}, {"user", nullptr}});
    return answer;
  });
  EXPECT_EQ(run({"--format", "json"}).json().at("head").at("seq"), 5);
}

TEST_F(Export, WritesAFileWhole) {
  const auto file = ledger.beside("k31.csv");
  const auto outcome = run({"--format", "csv", "--output", file});
  ASSERT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_TRUE(read(file).starts_with("seq,time,engine,feature,index"));
  EXPECT_EQ(outcome.out, file + ": csv, " + std::to_string(read(file).size()) + " bytes\n");
  EXPECT_EQ(run({"--format", "csv"}).out, read(file));
  const auto json = run({"--format", "csv", "--output", file, "--json"}).json();
  EXPECT_EQ(json.at("file"), file);
}

TEST_F(Export, MakesThePageWithItsHead) {
  const auto outcome = run({"--format", "html", "--engine", "K31"});
  ASSERT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_NE(outcome.out.find(printed(ledger.head())), std::string::npos);
}

TEST_F(Export, MakesTheSamePdfEachTimeOnTheSheetAskedFor) {
  const auto outcome = run({"--format", "pdf"});
  ASSERT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_TRUE(outcome.out.starts_with("%PDF-"));
  EXPECT_EQ(run({"--format", "pdf", "--paper", "a4"}).out, outcome.out);
  EXPECT_NE(run({"--format", "pdf", "--paper", "letter"}).out, outcome.out);
  EXPECT_EQ(run({"--format", "pdf", "--paper", "a5"}).exit, 2);
  const auto on_terminal = run_at(daemon, {"export", "--format", "pdf"}, {.out_is_terminal = true});
  EXPECT_EQ(on_terminal.exit, 2);
  EXPECT_EQ(on_terminal.out, "");
}

TEST_F(Export, MakesAWorksheetAsPageOrByTheFilesEndingAsPdf) {
  EXPECT_TRUE(run({"--format", "worksheet"}).out.starts_with("<!DOCTYPE html>"));
  const auto file = ledger.beside("blank.pdf");
  EXPECT_EQ(run({"--format", "worksheet", "--output", file}).exit, 0);
  EXPECT_TRUE(read(file).starts_with("%PDF-"));
}

TEST_F(Export, SheetsGoWithAPartAndNameTheirFeatures) {
  const auto file = ledger.beside("bore.pdf");
  const auto page = run_at(daemon, {"sheet", "bo"});
  ASSERT_EQ(page.exit, 0) << page.err;
  EXPECT_NE(page.out.find("Order to the machine shop"), std::string::npos);
  EXPECT_NE(page.out.find(printed(ledger.head())), std::string::npos);
  const auto written = run_at(daemon, {"sheet", "bore", "--output", file});
  EXPECT_EQ(written.out, file + ": pdf, " + std::to_string(read(file).size()) + " bytes\n");
  EXPECT_TRUE(read(file).starts_with("%PDF-"));
  EXPECT_EQ(run_at(daemon, {"sheet"}).exit, 2);
  EXPECT_EQ(run_at(daemon, {"sheet", "bore", "nothing"}).exit, 4);
}

TEST_F(Export, OfAnUnknownEngineOrFormatIsRefused) {
  const auto unknown = run({"--format", "csv", "--engine", "K32"});
  EXPECT_EQ(unknown.exit, 4);
  EXPECT_NE(unknown.err.find("did you mean 'K31'?"), std::string::npos) << unknown.err;
  EXPECT_EQ(run({"--format", "xml"}).exit, 2);
  EXPECT_EQ(run({}).exit, 2);
  EXPECT_EQ(run({"--format", "csv", "--output", "/nowhere/x.csv"}).exit, 4);
}

TEST_F(Export, WithoutAnEngineInUseNamesTheOption) {
  daemon.answers("entries", {{"head", {{"seq", 0}, {"hash", std::string(64, '0')}}}, {"entries", Json::array()}});
  const auto outcome = run({"--format", "csv"});
  EXPECT_EQ(outcome.exit, 4);
  EXPECT_NE(outcome.err.find("--engine"), std::string::npos);
}

TEST_F(Export, LeavesNoFileWhereItIsRefused) {
  const auto file = ledger.beside("k3.csv");
  EXPECT_EQ(run({"--format", "csv", "--engine", "K3", "--output", file}).exit, 4);
  EXPECT_FALSE(std::filesystem::exists(file));
}

TEST_F(Export, OfALedgerWithGapsOrStrangeRowsIsRefused) {
  const auto spoilt = [this](const std::function<void(Json&)>& spoil) {
    daemon.answers_by("entries", [this, spoil](const Json& params) {
      auto answer = ledger.entries(params, 5);
      spoil(answer);
      return answer;
    });
    return run({"--format", "csv"});
  };
  EXPECT_EQ(spoilt([](Json&) {}).exit, 0);
  EXPECT_EQ(spoilt([](Json& answer) { answer["entries"].erase(1); }).exit, 3);
  EXPECT_EQ(spoilt([](Json& answer) { answer["entries"] = Json::array(); }).exit, 3);
  EXPECT_EQ(spoilt([](Json& answer) { answer["entries"][1]["hash"] = "short"; }).exit, 3);
  EXPECT_EQ(spoilt([](Json& answer) { answer["entries"][1]["body"] = "{"; }).exit, 3);
  EXPECT_EQ(spoilt([](Json& answer) { answer["entries"][1]["body"] = R"({"kind":"never"})"; }).exit, 3);
  EXPECT_EQ(spoilt([](Json& answer) { answer["entries"][1].erase("seq"); }).exit, 3);
  EXPECT_EQ(spoilt([](Json& answer) { answer.erase("head"); }).exit, 3);
}

}  // namespace
}  // namespace tenth::cli
