#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/speak/telling.hpp"

namespace tenth::cli {

/// Makes one utterance of all that happened at once: what is to stop for first, then the rest in its order.
class Composer {
 public:
  Composer(Speech speech, Level level, std::optional<Unit> unit)
      : speech_(std::move(speech)), level_(level), unit_(unit) {}

  /// Whether alerts are heard, and shown as notices.
  void alerts(bool heard, bool shown) { alerts_heard_ = heard, alerts_shown_ = shown; }

  Utterance compose(const std::vector<Json>& moment);

 private:
  Telling telling(const Json& event, const std::vector<Json>& moment) const;
  void remember(const Json& event, const Telling& telling);

  Speech speech_;
  Level level_;
  std::optional<Unit> unit_;  ///< as asked for; else that of the gauge which was read last
  Unit last_unit_ = Unit::mm;
  std::string last_part_;
  bool alerts_heard_ = true, alerts_shown_ = false;
};

}  // namespace tenth::cli
