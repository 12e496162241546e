#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/intake.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/acts/settings.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/params.hpp"
#include "rules/master_name.hpp"

namespace tenth {
namespace {

/// What a gauge is to be set on, and the unit to show its size in.
struct Chosen {
  Length size;
  Unit unit = Unit::mm;
  MasterUsed used;
};

/// A size, else a master by its name.
Result<Chosen> master_or_size(const Bench& bench, const Params& params, const std::string& typed) {
  if (can_name_master(typed)) {
    TENTH_TRY(const Master* const known, master_named(bench, typed));
    return Chosen{known->size, known->unit, {known->entry, known->name, "", {}, {}}};
  }
  TENTH_TRY(const std::optional<Unit> bare, params.unit(spec_unit(bench)));
  TENTH_TRY(const Length size, parse_length(typed, bare));
  if (size < Length()) return refuse("length", "a master has no size below zero", "give the size on its certificate");
  return Chosen{size, unit_typed(typed, bare), {}};
}

Result<Chosen> chosen_of(const Draft& draft, const Params& params, const Gauge& gauge) {
  TENTH_TRY(const std::optional<std::string> typed, params.maybe_text("size"));
  TENTH_TRY(const std::optional<std::string> in, params.maybe_text("in"));
  if (!typed == !in)
    return wrong_words("master", "a gauge is set on one master", "give its name or size, or --in GAUGE");
  if (typed) return master_or_size(draft.bench(), params, *typed);
  if (*in == gauge.name)
    return wrong_words("master", "a gauge cannot be set in itself", "name the gauge that is clamped");
  TENTH_TRY(const Gauge* const other, gauge_named(draft.bench(), *in));
  TENTH_TRY(const Reading* const reading, clamped_at(draft, *other));
  return Chosen{*reading->size, reading->unit, {{}, "", other->name, reading->seq, reading->uncertainty}};
}

Answerer awaiting(const std::string& gauge, Length size, Unit unit, const MasterUsed& used) {
  Json answer = {{"gauge", gauge}, {"master_mm", mm(size)}, {"unit", name(unit)}, {"within_s", kAwait_us / 1'000'000}};
  answer.update(used_json(used));
  return [answer, master = used.name](const View& view) {
    Json whole = answer;
    const auto found = view.bench.masters.find(master);
    whole["overdue"] = found != view.bench.masters.end() && master_json(view, found->second)["overdue"] == true;
    return whole;
  };
}

}  // namespace

Decided master(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string name, params.text("gauge"));
  TENTH_TRY(const Gauge* const gauge, gauge_named(draft.bench(), name));
  TENTH_TRY(const Chosen chosen, chosen_of(draft, params, *gauge));
  Json body = {
      {"gauge", gauge->name}, {"gauge_entry", gauge->entry}, {"act", "master"}, {"master_pm", pm(chosen.size)}};
  put_used(body, chosen.used);
  draft.append("await", std::move(body));
  return awaiting(name, chosen.size, chosen.unit, chosen.used);
}

Decided recheck(Draft& draft, const Json& object) {
  TENTH_TRY(const std::string name, Params(object).text("gauge"));
  TENTH_TRY(const Gauge* const gauge, gauge_named(draft.bench(), name));
  if (!gauge->setting)
    return refuse("no_setting", "gauge `" + name + "` has no setting to check",
                  "set it first: `tenth master " + name + " SIZE`");
  const Setting setting = *gauge->setting;
  const Unit unit = spec_unit(draft.bench()).value_or(setting.unit);
  draft.append("await",
               {{"gauge", gauge->name}, {"gauge_entry", gauge->entry}, {"act", "recheck"}, {"master_pm", nullptr}});
  return awaiting(name, setting.master, unit, setting.used);
}

Decided masters_add(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string asked, params.text("name"));
  TENTH_TRY(const std::string name, checked_name(asked, "a master"));
  TENTH_TRY(const std::string typed, params.text("size"));
  TENTH_TRY(const std::optional<std::string> certificate, params.maybe_text("certificate"));
  TENTH_TRY(const std::optional<std::string> due, params.maybe_day("due"));
  TENTH_TRY(const std::optional<Unit> bare, params.unit(spec_unit(draft.bench())));
  TENTH_TRY(const Length size, parse_length(typed, bare));
  TENTH_TRY(const std::optional<Length> uncertainty, params.maybe_amount("uncertainty", bare));
  if (!can_name_master(name))
    return wrong_words("name", "`" + name + "` is blank or begins as a size does",
                       "choose a name that begins with a letter");
  if (size < Length()) return refuse("length", "a master has no size below zero", "give the size on its certificate");
  if (const auto found = draft.bench().masters.find(name);
      found != draft.bench().masters.end() && !found->second.dropped)
    return refuse("master_exists", "there is a master `" + name + "` already",
                  "choose another name, or drop that one first");
  Json body = {{"name", name}, {"size_pm", pm(size)}, {"unit", tenth::name(unit_typed(typed, bare))}};
  body.update({{"certificate", or_null(certificate)}, {"due", or_null(due)}, {"uncertainty_pm", pm(uncertainty)}});
  draft.append("master", std::move(body));
  return [name](const View& view) { return master_json(view, view.bench.masters.at(name)); };
}

Decided masters_drop(Draft& draft, const Json& object) {
  TENTH_TRY(const std::string asked, Params(object).text("name"));
  TENTH_TRY(const Master* const known, master_named(draft.bench(), asked));
  const std::string name = known->name;
  draft.append("master_drop", {{"name", name}});
  return [name](const View&) { return Json{{"name", name}}; };
}

}  // namespace tenth
