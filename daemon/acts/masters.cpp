#include "daemon/acts/acts.hpp"
#include "daemon/acts/intake.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/params.hpp"

namespace tenth {
namespace {

Answerer awaiting(const std::string& gauge, Length master, Unit unit) {
  const Json answer = {{"gauge", gauge}, {"master_mm", mm(master)}, {"unit", name(unit)}, {"within_s", kAwait_us / 1'000'000}};
  return [answer](const View&) { return answer; };
}

}  // namespace

Decided master(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string name, params.text("gauge"));
  TENTH_TRY(const std::string typed, params.text("size"));
  TENTH_TRY(const Gauge* const gauge, gauge_named(draft.bench(), name));
  TENTH_TRY(const std::optional<Unit> bare, params.unit(spec_unit(draft.bench())));
  TENTH_TRY(const Length size, parse_length(typed, bare));
  if (size < Length()) return wrong_words("length", "a master has no size below zero", "give the size on its certificate");
  draft.append("await", {{"gauge", gauge->name}, {"gauge_entry", gauge->entry}, {"act", "master"}, {"master_pm", pm(size)}});
  return awaiting(name, size, unit_typed(typed, bare));
}

Decided recheck(Draft& draft, const Json& object) {
  TENTH_TRY(const std::string name, Params(object).text("gauge"));
  TENTH_TRY(const Gauge* const gauge, gauge_named(draft.bench(), name));
  if (!gauge->setting)
    return refuse("no_setting", "gauge `" + name + "` was never set on a master", "set it first: `tenth master " + name + " SIZE`");
  const Length size = gauge->setting->master;
  const Unit unit = spec_unit(draft.bench()).value_or(gauge->setting->unit);
  draft.append("await", {{"gauge", gauge->name}, {"gauge_entry", gauge->entry}, {"act", "recheck"}, {"master_pm", nullptr}});
  return awaiting(name, size, unit);
}

}  // namespace tenth
