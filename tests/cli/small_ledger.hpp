#pragma once

#include <string>
#include <vector>

#include "schema/json/json.hpp"
#include "schema/store/ledger.hpp"
#include "tests/support/folder.hpp"

namespace tenth::cli {

/// A ledger of one engine without readings, in a folder of its own.
class SmallLedger {
 public:
  SmallLedger();

  const std::string& file() const { return file_; }
  std::string beside(const std::string& name) const { return folder_ / name; }
  std::vector<Row> rows() const;
  Head head() const;
  void append(const std::string& kind, const Json& body);
  /// As the method `entries` gives them, at most `page` of them.
  Json entries(const Json& params, std::size_t page) const;
  /// What an evil hand could do: the statement past all guards.
  void tamper(const std::string& sql) const;

 private:
  Folder folder_;
  std::string file_ = beside("ledger.db");
};

}  // namespace tenth::cli
