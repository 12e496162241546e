#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <functional>

#include "record_support.hpp"

namespace tenth {
namespace {

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

TEST(RecordAudit, SeesALengthThatNoPartHas) {
  for (const std::int64_t pm : {9'000'000'000'000'000'000, -9'000'000'000'000'000'000, 300'000'000'000'001}) {
    const Finding finding = audited(with_body(sample::kRedReading, [pm](Json body) {
      body["size_pm"] = pm;
      return canonical(body);
    }));
    EXPECT_FALSE(finding.ok);
    EXPECT_EQ(finding.first_bad, sample::kRedReading);
    EXPECT_NE(finding.why.find("too long"), std::string::npos) << finding.why;
  }
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

/// What an audit vouches for; the rest is said by whoever made the record, under whatever key.
Json vouched(const Json& told) {
  Json part;
  for (const char* key : {"format", "version", "ledger", "engine", "entries", "head", "readings", "check"})
    part[key] = told.at(key);
  return part;
}

TEST(RecordAudit, ADigestHasOneText) {
  std::string text = text_of();
  const auto digests = text.find("\"digests\":\"");
  ASSERT_NE(digests, std::string::npos);
  const auto letter = text.find_first_of("abcdef", digests + 11);
  text[letter] = static_cast<char>(text[letter] - 'a' + 'A');
  EXPECT_FALSE(audit_record(text)->ok);
}

RC_GTEST_PROP(RecordAudit, NeverFallsAndNeverBelievesAChange, ()) {
  static const std::string whole = text_of();
  std::string text = whole;
  const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
  text[at] = *rc::gen::inRange<char>(0x20, 0x7F);
  const auto finding = audit_record(text);
  if (finding && finding->ok) {
    const bool same = vouched(Json::parse(text)) == vouched(Json::parse(whole));
    RC_LOG() << "believed: ..." << text.substr(at < 40 ? 0 : at - 40, 80) << "...";
    RC_ASSERT(same);
  }
}

}  // namespace
}  // namespace tenth
