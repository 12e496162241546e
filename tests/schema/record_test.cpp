#include "record_support.hpp"

namespace tenth {
namespace {

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

}  // namespace
}  // namespace tenth
