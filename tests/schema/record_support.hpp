#pragma once

#include <gtest/gtest.h>

#include "sample_ledger.hpp"
#include "schema/export/exports.hpp"

namespace tenth {

inline const std::string kMadeAt = "2026-03-02T00:00:00.000000Z";

inline std::string text_of(const std::string& engine = "red") {
  auto text = record(sample::two_engines(), engine, kMadeAt, "shop");
  EXPECT_TRUE(text) << text.error().message;
  return text.value_or("");
}

inline Json red() {
  return Json::parse(text_of());
}

inline RecordFinding audited(const Json& record) {
  auto finding = audit_record(record.dump());
  EXPECT_TRUE(finding) << finding.error().message;
  return finding.value_or(RecordFinding{});
}

/// The entry of a record with this seq.
inline Json& entry(Json& record, std::int64_t seq) {
  for (Json& item : record["entries"])
    if (item["seq"] == seq) return item;
  throw std::out_of_range("no such entry");
}

}  // namespace tenth
