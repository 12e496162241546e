#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "html_support.hpp"
#include "pdf_support.hpp"
#include "sample_bench.hpp"
#include "schema/export/exports.hpp"
#include "schema/export/paper/papers.hpp"
#include "schema/wire/views.hpp"

namespace tenth {
namespace {

using paper::Sheet;

constexpr double kMm = 72 / 25.4;

Engine& engine_of(Bench& bench) {
  return bench.engines.at(sample::kEngine);
}

paper::Paper paper_of(const Bench& bench) {
  return paper::build_record(bench, bench.engines.at(sample::kEngine), {bench.seq, sha256("head")});
}

std::string head_of(const Bench& bench) {
  return printed({bench.seq, sha256("head")});
}

const PdfFile& sample_file() {
  static const PdfFile file(pdf(paper_of(sample::bench()), Sheet::a4));
  return file;
}

std::multiset<std::string> sorted_words(const PdfFile& file) {
  std::multiset<std::string> words;
  for (const PdfFile::Word& word : file.words()) words.insert(word.text);
  return words;
}

/// What is on paper stays on paper, whichever of the two it is printed on and however that lies in the tray.
void expect_inside(const PdfFile& a4) {
  for (const PdfFile::Word& word : a4.words()) {
    EXPECT_GE(word.left, 5 * kMm) << word.text;
    EXPECT_LE(word.right, 205 * kMm) << word.text;
    EXPECT_GE(word.top, (297 - 279.4) / 2 * kMm + 4 * kMm) << word.text;
    EXPECT_LE(word.bottom, (279.4 - 4) * kMm) << word.text;
  }
}

TEST(Pdf, IsTheSameToTheByteAndTellsOnlyTheLedgersTime) {
  Bench bench = sample::bench();
  bench.time = "2026-03-05T08:00:00.123456Z";
  const std::string bytes = pdf(paper_of(bench), Sheet::a4);
  EXPECT_EQ(bytes, pdf(paper_of(bench), Sheet::a4));
  EXPECT_TRUE(bytes.starts_with("%PDF-1."));
  EXPECT_TRUE(has(bytes, "CreationDate (20260305080000"));
}

TEST(Pdf, PrintsOnA4AndOnLetterAlike) {
  const PdfFile letter(pdf(paper_of(sample::bench()), Sheet::letter));
  EXPECT_TRUE(has(sample_file().size(), "(A4)"));
  EXPECT_EQ(letter.size(), "612 x 792 pts (letter)");
  EXPECT_EQ(letter.pages(), sample_file().pages());
  EXPECT_EQ(sorted_words(letter), sorted_words(sample_file()));
  expect_inside(sample_file());
}

TEST(Pdf, BearsEngineHeadAndNumberOnEveryPage) {
  const Bench bench = sample::bench();
  const int pages = sample_file().pages();
  EXPECT_GT(pages, 4);
  for (int page = 1; page <= pages; ++page) {
    const std::string text = sample_file().text(page);
    EXPECT_TRUE(has(text, head_of(bench))) << page;
    EXPECT_TRUE(has(text, "Job 41 <\"blue\"> six & 'spare' · Build record")) << text;
    EXPECT_TRUE(has(text, "page " + std::to_string(page) + " of " + std::to_string(pages))) << page;
  }
}

TEST(Pdf, HasAllThatThePageHas) {
  const std::string text = sample_file().text();
  std::size_t last = 0;
  for (const char* title :
       {"Found as the parts", "Decided what people", "Left the parts", "Rule how it", "Figures to the",
        "Readings every one", "Gauges what it", "Cautions", "Signed who", "Proof how to"}) {
    const auto at = text.find(title, last);
    ASSERT_NE(at, std::string::npos) << title;
    last = at;
  }
  for (const char* part :
       {"Error shown", "1 place still to measure", "set aside (void)", "read the wrong line", "ISO 14253-1",
        "kept although", "Alert accepted", "drift 0.001", "Received by", "The limits are the builder's"})
    EXPECT_TRUE(has(text, part)) << part;
}

TEST(Pdf, SaysInACodeWhatStandsBesideIt) {
  EXPECT_EQ(sample_file().codes(sample_file().pages()), std::vector{head_of(sample::bench())});
}

TEST(Pdf, GivesTheRecordsNumbersToTheLastDigit) {
  Bench bench = sample::bench();
  Engine& engine = engine_of(bench);
  engine.readings[0].size = Length::from_pm(83'014'123'457);
  const std::multiset<std::string> words = sorted_words(PdfFile(pdf(paper_of(bench), Sheet::a4)));
  const Json check = check_document(engine);
  for (const char* what : {"features", "fits", "spreads"})
    for (const Json& result : check.at(what))
      for (const auto& [key, value] : result.items())
        if (key.ends_with("_mm") || key == "probability") {
          EXPECT_TRUE(value.is_null() || words.contains(canonical(value))) << what << " " << key << " " << value;
        }
  for (const Json& reading : readings_json(engine, true)) {
    const auto size = Length::from_pm(std::llround(reading.at("size_mm").get<double>() * 1e9));
    EXPECT_TRUE(words.contains(exact_mm(size)) || words.contains(fixed(size, Unit::mm, 3))) << reading;
    EXPECT_TRUE(words.contains(reading.at("seq").dump()));
  }
}

TEST(Pdf, SetsEveryScript) {
  for (const std::string name : {"Müller & Søn №5", "двигатель", "κινητήρας", "発動機", "发动机"}) {
    Bench bench = sample::bench();
    engine_of(bench).readings[0].operator_name = name;
    EXPECT_TRUE(has(PdfFile(pdf(paper_of(bench), Sheet::a4)).text(), name)) << name;
  }
}

TEST(Pdf, MakesNamesHarmless) {
  const std::string bad = "a\x1b[2J\n\t\x7F\xFF<b>&amp; (x) \\) Tj %";
  Bench bench = sample::bench();
  Engine& engine = engine_of(bench);
  Spec spec = *engine.spec;
  spec.title = spec.features[0].where = spec.facts[0].first = spec.facts[0].second = bad;
  spec.features[0].levels[0] = spec.features[0].axes[0] = spec.features[0].labels[0] = bad;
  engine.spec = std::make_shared<const Spec>(spec);
  engine.name = bad;
  Reading& reading = engine.readings[0];
  reading.raw = reading.stage = bad;
  reading.operator_name = bad;
  bench.alerts[0].note = bad;
  const PdfFile file(pdf(paper::build_record(bench, engine, {1, sha256("head")}), Sheet::a4));
  EXPECT_GE(times(file.text(), "a\\x1B[2J\\x0A\\x09\\x7F"), 6U);
  EXPECT_TRUE(has(file.text(), "<b>&amp; (x) \\) Tj %"));
  EXPECT_FALSE(has(file.text(), "\x1b"));
}

TEST(Pdf, WrapsHugeNamesAndRunsOnOverPages) {
  Bench bench = sample::bench();
  Engine& engine = engine_of(bench);
  std::string note;
  for (int i = 0; i < 4000; ++i) note += "w" + std::to_string(i) + " ";
  bench.choices.push_back({300, "decide", engine.name, "2026-03-04T10:00:00.000000Z", note, "ann", note});
  engine.readings[0].operator_name = std::string(600, 'o');
  engine.readings[0].raw = std::string(256, 'r');
  Spec spec = *engine.spec;
  spec.title = std::string(3000, 't');
  spec.features[0].axes[0] = std::string(200, 'x');
  engine.spec = std::make_shared<const Spec>(spec);
  const PdfFile file(pdf(paper_of(bench), Sheet::a4));
  const std::string text = file.text();
  for (int i = 0; i < 4000; i += 37) EXPECT_GE(times(text + " ", " w" + std::to_string(i) + " "), 2U) << i;
  EXPECT_GE(std::ranges::count(text, 'o'), 600);
  EXPECT_GE(std::ranges::count(text, 'r'), 256);
  EXPECT_GE(std::ranges::count(text, 't'), 3000);
  expect_inside(file);
}

TEST(Pdf, OfManyReadingsHasTheTablesHeadOnEveryPage) {
  Bench bench = sample::bench();
  Engine& engine = engine_of(bench);
  for (int i = 0; i < 1000; ++i)
    engine.readings.push_back(sample::reading(1000 + i, {"piston", 2, "", ""}, sample::um(82'941)));
  const PdfFile file(pdf(paper_of(bench), Sheet::a4));
  const std::string text = file.text();
  for (int seq = 1000; seq < 2000; ++seq) EXPECT_TRUE(has(text, " " + std::to_string(seq) + " ")) << seq;
  EXPECT_GT(file.pages(), sample_file().pages() + 10);
  EXPECT_GT(times(text, "as received"), 10U);
}

TEST(Pdf, StandsWithoutAnyReadingOrFeature) {
  Bench bench = sample::bench();
  Engine& engine = engine_of(bench);
  engine.readings.clear();
  engine.answers.clear();
  engine.stages.clear();
  bench.alerts.clear();
  const std::string text = PdfFile(pdf(paper_of(bench), Sheet::a4)).text();
  for (const char* part : {"Nothing had to be decided", "No readings.", "No gauge was used."})
    EXPECT_TRUE(has(text, part)) << part;
  engine.spec = std::make_shared<const Spec>();
  EXPECT_TRUE(has(PdfFile(pdf(paper_of(bench), Sheet::a4)).text(), "No figures."));
}

}  // namespace
}  // namespace tenth
