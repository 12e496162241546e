#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rules/length.hpp"
#include "rules/result.hpp"
#include "schema/json/json.hpp"

namespace tenth {

/// The parameters of one call. Absent and null are the same; a wrong type is refused as wrong words.
class Params {
 public:
  explicit Params(const Json& object) : object_(object) {}

  Result<std::string> text(const char* key) const;   ///< required, not empty, of at most 4 KiB
  Result<std::string> words(const char* key) const;  ///< the same, and not blank
  Result<std::optional<std::string>> maybe_text(const char* key) const;
  /// What stood in a file, as long as it may be.
  Result<std::string> file(const char* key) const;
  Result<std::optional<std::string>> maybe_file(const char* key) const;
  Result<bool> flag(const char* key) const;  ///< absent: false
  Result<std::optional<std::int64_t>> maybe_number(const char* key) const;
  Result<std::vector<std::string>> texts(const char* key) const;  ///< absent: none
  /// A length as typed; bare numbers are in `bare`.
  Result<std::optional<Length>> maybe_length(const char* key, std::optional<Unit> bare) const;
  /// The same, of zero or more.
  Result<std::optional<Length>> maybe_amount(const char* key, std::optional<Unit> bare) const;
  /// A day such as "2026-03-01".
  Result<std::optional<std::string>> maybe_day(const char* key) const;
  /// The key `unit`, else the unit given.
  Result<std::optional<Unit>> unit(std::optional<Unit> otherwise) const;

 private:
  const Json* find(const char* key) const;
  const Json& object_;
};

/// Nothing to read in it.
bool blank(std::string_view text);

/// The key `reason`, which an act that changes what stands must give; a blank one is refused as wrong words.
Result<std::string> reason_of(const Params& params);

/// A name for an engine, gauge, operator or stage: 1 to 100 bytes. Control characters are allowed and shown escaped.
Result<std::string> checked_name(const std::string& name, const std::string& of_what);

}  // namespace tenth
