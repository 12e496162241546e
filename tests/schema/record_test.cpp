#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <functional>

#include "sample_ledger.hpp"
#include "schema/export/exports.hpp"

namespace tenth {
namespace {

const std::string kMadeAt = "2026-03-02T00:00:00.000000Z";

std::string text_of(const std::string& engine = "red") {
  auto text = record(sample::two_engines(), engine, kMadeAt, "shop");
  EXPECT_TRUE(text) << text.error().message;
  return text.value_or("");
}

Json red() {
  return Json::parse(text_of());
}

Finding audited(const Json& record) {
  auto finding = audit_record(record.dump());
  EXPECT_TRUE(finding) << finding.error().message;
  return finding.value_or(Finding{});
}

/// The entry of a record with this seq.
Json& entry(Json& record, std::int64_t seq) {
  for (Json& item : record["entries"])
    if (item["seq"] == seq) return item;
  throw std::out_of_range("no such entry");
}

/// The same ledger with one body changed and the chain made anew from there: only what the body says is false.
Json with_body(std::int64_t seq, const std::function<std::string(Json)>& change) {
  std::vector<std::string> bodies;
  for (const Row& row : sample::two_engines())
    bodies.push_back(row.seq == seq ? change(Json::parse(row.body)) : row.body);
  const std::vector<Row> rows = sample::chained(bodies);
  Json told = red();
  for (Json& item : told["entries"])
    if (item["seq"] == seq) item["body"] = bodies[static_cast<std::size_t>(seq - 1)];
  told["head"]["hash"] = hex(rows.back().hash);
  return told;
}

TEST(Record, IsFoundTrue) {
  const Finding finding = audited(red());
  EXPECT_TRUE(finding.ok) << finding.why;
  EXPECT_EQ(finding.entries, 24);
  EXPECT_EQ(finding.head.seq, 24);
  EXPECT_EQ(hex(finding.head.hash), hex(sample::two_engines().back().hash));
  EXPECT_FALSE(finding.first_bad);
  EXPECT_TRUE(audited(Json::parse(text_of("blue"))).ok);
}

TEST(Record, HasThePromisedKeys) {
  const Json told = red();
  EXPECT_EQ(told["format"], "tenth-record");
  EXPECT_EQ(told["version"], 1);
  EXPECT_EQ(told["ledger"], "00112233445566778899aabbccddeeff");
  EXPECT_EQ(told["engine"], "red");
  EXPECT_EQ(told["made_at"], kMadeAt);
  EXPECT_EQ(told["made_by"], "shop");
  EXPECT_EQ(told["program"], "tenth " TENTH_VERSION);
  EXPECT_EQ(told["seals"], Json::array());
  EXPECT_EQ(told.size(), 12U);
}

TEST(Record, RunsFromOneToTheHeadWithoutAGap) {
  std::int64_t next = 1;
  const Json told = red();
  for (const Json& item : told["entries"]) {
    EXPECT_EQ(item["seq"], next);
    next += item.contains("body") ? 1 : static_cast<std::int64_t>(item["digests"].get<std::string>().size() / 64);
  }
  EXPECT_EQ(next, 25);
}

TEST(Record, GivesTheBodiesItNeedsAndDigestsOfTheRest) {
  Json told = red();
  for (const std::int64_t seq : {1, 3, 4, 5, 6, 7, 10, 11, 13, 16, 17, 23})
    EXPECT_TRUE(entry(told, seq).contains("body")) << seq;
  EXPECT_EQ(entry(told, sample::kBlueSpec)["digests"].get<std::string>().size(), 2 * 64U);
  EXPECT_EQ(text_of().find("\\\"engine\\\":\\\"blue\\\""), std::string::npos);
  const std::string rows_body = sample::two_engines()[12].body;
  EXPECT_EQ(entry(told, 13)["body"], rows_body);
}

TEST(Record, IsTheSameButForWhenItWasMade) {
  Json a = red();
  Json b = Json::parse(*record(sample::two_engines(), "red", "2030-01-01T00:00:00.000000Z", "shop"));
  EXPECT_NE(a, b);
  a.erase("made_at");
  b.erase("made_at");
  EXPECT_EQ(canonical(a), canonical(b));
  EXPECT_EQ(text_of(), canonical(red()));
}

TEST(Record, HoldsTheReadingsWithTheirHashesAndTheCheck) {
  const Json told = red();
  ASSERT_EQ(told["readings"].size(), 6U);
  EXPECT_EQ(told["readings"][0]["hash"], hex(sample::two_engines()[12].hash));
  EXPECT_EQ(told["readings"][1]["moved_from"], "bore/1");
  EXPECT_EQ(told["readings"][3]["state"], "void");
  EXPECT_EQ(told["check"]["engine"], "red");
  EXPECT_EQ(told["check"]["fits"][0]["mean_mm"], 0.054);  // 80.012 less 79.958
}

TEST(Record, RefusesAnUnknownEngine) {
  const auto refused = record(sample::two_engines(), "green", kMadeAt, "shop");
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, "unknown_engine");
  EXPECT_EQ(refused.error().exit, Exit::refused);
  EXPECT_FALSE(record({}, "red", kMadeAt, "shop"));
}

TEST(Record, RefusesALedgerThatNoTenthWrote) {
  auto rows = sample::two_engines();
  rows[12].body = "[1]";
  EXPECT_EQ(record(rows, "red", kMadeAt, "shop").error().code, "ledger_false");
  rows[12].body = R"({"engine":"red","kind":"spell"})";
  EXPECT_EQ(record(rows, "red", kMadeAt, "shop").error().code, "ledger_false");
}

TEST(RecordAudit, SeesAChangedBody) {
  Json told = red();
  std::string body = entry(told, sample::kRedReading)["body"];
  body.replace(body.find("80012"), 5, "80013");
  entry(told, sample::kRedReading)["body"] = body;
  const Finding finding = audited(told);
  EXPECT_FALSE(finding.ok);
  EXPECT_NE(finding.why.find("chain"), std::string::npos);
}

TEST(RecordAudit, SeesAChangedBodyEvenWhereTheChainWasMadeAnew) {
  const Json told = with_body(sample::kRedReading, [](Json body) {
    body["size_pm"] = 80'013'000'000;
    return canonical(body);
  });
  const Finding finding = audited(told);
  EXPECT_FALSE(finding.ok);
  EXPECT_EQ(finding.first_bad, sample::kRedReading);
}

TEST(RecordAudit, SeesABodyThatIsNotCanonical) {
  const Finding finding = audited(with_body(sample::kRedReading, [](const Json& body) { return body.dump(1); }));
  EXPECT_FALSE(finding.ok);
  EXPECT_EQ(finding.first_bad, sample::kRedReading);
  EXPECT_NE(finding.why.find("canonical"), std::string::npos);
}

TEST(RecordAudit, SeesABodyThatNoTenthWrote) {
  const Finding finding = audited(with_body(sample::kRedReading, [](Json body) {
    body["unit"] = "furlong";
    return canonical(body);
  }));
  EXPECT_FALSE(finding.ok);
  EXPECT_EQ(finding.first_bad, sample::kRedReading);
}

TEST(RecordAudit, SeesThatWhatABodyRestsOnIsMissing) {
  Json told = red();
  Json& setting = entry(told, sample::kSetting);
  setting["digests"] = hex(sha256(setting["body"].get<std::string>()));
  setting.erase("body");
  const Finding finding = audited(told);
  EXPECT_FALSE(finding.ok);
  EXPECT_EQ(finding.first_bad, sample::kRedReading);
  EXPECT_NE(finding.why.find("rests on entry 10"), std::string::npos);
}

struct Tampering {
  const char* what;
  std::function<void(Json&)> act;
  friend void PrintTo(const Tampering& tampering, std::ostream* out) { *out << tampering.what; }
};

class Tampered : public testing::TestWithParam<Tampering> {};

TEST_P(Tampered, IsFoundFalse) {
  Json told = red();
  GetParam().act(told);
  const Finding finding = audited(told);
  EXPECT_FALSE(finding.ok) << GetParam().what;
  EXPECT_FALSE(finding.why.empty());
  EXPECT_EQ(finding.why.find('\n'), std::string::npos);
}

const std::string kZeros(64, '0');

INSTANTIATE_TEST_SUITE_P(
    Record, Tampered,
    testing::Values(Tampering{"size", [](Json& r) { r["readings"][0]["size_mm"] = 80.0121; }},
                    Tampering{"operator", [](Json& r) { r["readings"][0]["operator"] = "second bench"; }},
                    Tampering{"hash of a reading", [](Json& r) { r["readings"][0]["hash"] = kZeros; }},
                    Tampering{"reading left out", [](Json& r) { r["readings"].erase(3); }},
                    Tampering{"reading added", [](Json& r) { r["readings"].push_back(r["readings"][0]); }},
                    Tampering{"verdict", [](Json& r) { r["check"]["verdict"] = "doubtful"; }},
                    Tampering{"key of a fit", [](Json& r) { r["check"]["fits"][0].erase("target_mm"); }},
                    Tampering{"head's seq", [](Json& r) { r["head"]["seq"] = 23; }},
                    Tampering{"head's hash", [](Json& r) { r["head"]["hash"] = kZeros; }},
                    Tampering{"head's hash cut", [](Json& r) { r["head"]["hash"] = "00"; }},
                    Tampering{"entry left out", [](Json& r) { r["entries"].erase(3); }},
                    Tampering{"last entry cut", [](Json& r) { r["entries"].erase(r["entries"].size() - 1); }},
                    Tampering{"entries in another order", [](Json& r) { std::swap(r["entries"][2], r["entries"][3]); }},
                    Tampering{"digest", [](Json& r) { entry(r, 8)["digests"] = kZeros + kZeros; }},
                    Tampering{"digest cut", [](Json& r) { entry(r, 8)["digests"] = kZeros + "0"; }},
                    Tampering{"no digest", [](Json& r) { entry(r, 8)["digests"] = ""; }},
                    Tampering{"digest of other letters",
                              [](Json& r) { entry(r, 8)["digests"] = std::string(128, 'x'); }},
                    Tampering{"body and digests", [](Json& r) { entry(r, 7)["digests"] = kZeros; }},
                    Tampering{"neither", [](Json& r) { entry(r, 7).erase("body"); }},
                    Tampering{"body that is no JSON", [](Json& r) { entry(r, 7)["body"] = "{"; }},
                    Tampering{"body that is no object", [](Json& r) { entry(r, 7)["body"] = "[]"; }},
                    Tampering{"body of another type", [](Json& r) { entry(r, 7)["body"] = Json::object(); }},
                    Tampering{"entry of another type", [](Json& r) { r["entries"][0] = 1; }},
                    Tampering{"no entries", [](Json& r) { r["entries"] = Json::array(); }},
                    Tampering{"ledger", [](Json& r) { r["ledger"] = std::string(32, '0'); }},
                    Tampering{"engine", [](Json& r) { r["engine"] = "blue"; }}));

TEST(RecordAudit, RefusesWhatIsNoRecord) {
  for (const char* text :
       {"", "nonsense", "[]", "{}", "null", R"({"format":"tenth-record"})", R"({"format":1,"version":1})"})
    EXPECT_EQ(audit_record(text).error().exit, Exit::refused) << text;
  Json newer = red();
  newer["version"] = 2;
  EXPECT_EQ(audit_record(newer.dump()).error().code, "record_newer");
}

TEST(RecordAudit, RefusesARecordWithAPartMissingOrOfAnotherType) {
  for (const char* key : {"format", "version", "ledger", "engine", "entries", "head", "readings", "check"}) {
    Json cut = red(), other = red();
    cut.erase(key);
    other[key] = true;
    EXPECT_FALSE(audit_record(cut.dump())) << key;
    EXPECT_FALSE(audit_record(other.dump())) << key;
  }
  Json twice = red();
  EXPECT_FALSE(audit_record("{\"format\":\"tenth-record\"," + twice.dump().substr(1)));
}

/// What an audit vouches for; the rest is said by whoever made the record.
Json vouched(Json told) {
  for (const char* key : {"made_at", "made_by", "program", "seals"}) told.erase(key);
  return told;
}

RC_GTEST_PROP(RecordAudit, NeverFallsAndNeverBelievesAChange, ()) {
  static const std::string whole = text_of();
  std::string text = whole;
  const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
  text[at] = *rc::gen::inRange<char>(0x20, 0x7F);
  const auto finding = audit_record(text);
  if (finding && finding->ok) RC_ASSERT(vouched(Json::parse(text)) == vouched(Json::parse(whole)));
}

}  // namespace
}  // namespace tenth
