#pragma once

#include <string>
#include <vector>

#include "rules/statistics/summary.hpp"

namespace tenth::statistics {

/// One reading of a gauge study.
struct StudyReading {
  int part = 0;
  std::string operator_name;
  int trial = 0;
  double value = 0;
};

/// The readings of a whole study: every part by every operator equally often. They are kept as differences from one of
/// them: nothing that a study says depends on a common offset, and so it takes no digits.
class Crossed {
 public:
  std::size_t parts() const { return parts_; }
  std::size_t operators() const { return names_.size(); }
  std::size_t trials() const { return trials_; }
  const std::string& operator_name(std::size_t i) const { return names_[i]; }  ///< by name
  int part_number(std::size_t i) const { return numbers_[i]; }                 ///< by number

  double largest() const { return largest_; }  ///< magnitude of a reading as it was taken
  Values all() const { return values_; }
  Values cell(std::size_t part, std::size_t by) const;
  std::vector<double> of_part(std::size_t part) const;
  std::vector<double> of_operator(std::size_t by) const;

 private:
  friend Result<Crossed> crossed(std::span<const StudyReading> readings);
  std::size_t parts_ = 0, trials_ = 0;
  double largest_ = 0;
  std::vector<std::string> names_;
  std::vector<int> numbers_;
  std::vector<double> values_;  ///< by part, then operator, then trial
};

/// Refused: fewer than two parts, operators or trials (`too_few`), one missing (`missing`) or there twice (`twice`),
/// all readings alike (`no_variation`), a value that is no number.
Result<Crossed> crossed(std::span<const StudyReading> readings);

}  // namespace tenth::statistics
