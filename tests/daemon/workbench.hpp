#pragma once

#include <map>
#include <string>
#include <vector>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/intake.hpp"
#include "daemon/view.hpp"

namespace tenth {

/// A bench without ports, disk or real time: acts and presses decided one after the other, as the desk would.
class Workbench {
 public:
  Workbench();

  /// The answer of an act, or its refusal; `last` holds the entries it gave.
  Result<Json> act(Decided (*what)(Draft&, const Json&), const Json& params);
  /// A frame of a gauge that shows a number, in millimetres unless said.
  void press(const std::string& gauge, const std::string& number, Unit unit = Unit::mm);
  void press(Frame frame);
  void fault(const std::string& gauge);
  /// Damage that shows in a burst whose frames are stored already.
  void damage(const std::vector<std::int64_t>& seqs);
  void link(const std::string& gauge, const std::string& state);
  void pass(std::int64_t seconds) { now.wall_us += seconds * 1'000'000, now.mono_ns += seconds * 1'000'000'000; }

  void add_engine(const std::string& name, const std::string& spec);
  void add_gauge(const std::string& name, const Json& more);

  const Reading& last_reading() const;
  Place place(const std::optional<std::string>& gauge = std::nullopt) const;
  /// Its place in slash form, or "none".
  std::string standing(const std::optional<std::string>& gauge = std::nullopt) const;
  std::vector<std::string> kinds() const;  ///< of the last entries
  View view() const { return {bench, live, pedals, now, "", 0, 0, {}}; }

  Bench bench;
  Instant now{1'800'000'000'000'000, 1'000'000'000'000};
  IntakeRules rules;
  LiveGauges live;
  LivePedals pedals;
  std::vector<Entry> last;

 private:
  void decide(const std::string& via, const std::function<void(Draft&)>& happening);
};

/// Doubts as words, for short expectations: "range tenfold".
std::string doubts(const Reading& reading);

/// Two cylinders, three mains, a check: enough for every act.
extern const char* const kTwin;

}  // namespace tenth
