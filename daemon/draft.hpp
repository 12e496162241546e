#pragma once

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "daemon/clock.hpp"
#include "daemon/view.hpp"
#include "schema/json/json.hpp"
#include "schema/ledger/fold.hpp"

namespace tenth {

/// Who acts, and how the act came in.
struct Actor {
  std::string user;
  std::int64_t uid = 0;
  std::string via;  ///< socket, gauge, pedal, daemon
};

/// What `[intake]` and `[gauge]` of the configuration set.
struct IntakeRules {
  std::int64_t settle_ms = 300;
  std::int64_t setting_life_h = 12;
  std::int64_t temperature_life_h = 4;
  bool overdue_suspect = false;  ///< a reading is suspect where its gauge is overdue for calibration
};

/// One act being decided: it reads the state and appends entries, each applied at once: what follows in it sees them.
/// It refuses before its first `append` or not at all, but for `take` on a master: the `fault` of its frame stays.
class Draft {
 public:
  Draft(Bench& bench, Actor actor, Instant now, std::string boot, const IntakeRules& rules, const LiveGauges& live)
      : bench_(bench), actor_(std::move(actor)), now_(now), boot_(std::move(boot)), rules_(rules), live_(live) {}

  const Bench& bench() const { return bench_; }
  const Actor& actor() const { return actor_; }
  const Instant& now() const { return now_; }
  const IntakeRules& rules() const { return rules_; }
  const LiveGauges& live() const { return live_; }

  /// Completes the body (time, clocks, salt, who) and appends it; returns its seq.
  std::int64_t append(const std::string& kind, Json body);

  /// The engines whose figures the entries may have changed: their alerts are looked at anew.
  const std::set<std::string>& touched() const { return touched_; }
  /// What belongs to no engine may have changed: a gauge's drift, a reading without an engine.
  bool bench_touched() const { return bench_touched_; }

  std::vector<Entry> take() { return std::move(pending_); }

 private:
  void complete(const std::string& kind, Json& body) const;
  void note_touched(const std::string& kind, const Json& body);

  Bench& bench_;
  Actor actor_;
  Instant now_;
  std::string boot_;
  const IntakeRules& rules_;
  const LiveGauges& live_;
  std::set<std::string> touched_;
  bool bench_touched_ = false;
  std::vector<Entry> pending_;
};

/// What a caller gets once the act is on disk, made from the state then.
using Answerer = std::function<Json(const View&)>;

}  // namespace tenth
