#include "daemon/acts/master_studies.hpp"

#include <algorithm>

#include "daemon/acts/lookup.hpp"
#include "daemon/acts/standing.hpp"
#include "rules/statistics/plan.hpp"
#include "schema/json/escape.hpp"
#include "schema/json/time.hpp"
#include "schema/store/hash.hpp"
#include "schema/wire/study_view.hpp"

namespace tenth {
namespace {

struct Ask {
  std::string name, what;
  const Gauge* gauge = nullptr;
  std::vector<Length> masters;
  int trials = 0;
};

Result<std::vector<Length>> masters_of(const Bench& bench, const Params& params, const std::string& what) {
  TENTH_TRY(const std::vector<std::string> typed, params.texts("masters"));
  TENTH_TRY(const std::optional<Unit> bare, params.unit(spec_unit(bench)));
  std::vector<Length> masters;
  for (const std::string& word : typed) {
    TENTH_TRY(const Length size, parse_length(word, bare));
    if (size < Length()) return refuse("length", "a master has no size below zero", "give the size on its certificate");
    if (std::ranges::find(masters, size) != masters.end())
      return wrong_words("masters", "the master " + word + " is named twice", "name each once");
    masters.push_back(size);
  }
  const std::size_t least = what == "linearity" ? 2 : 1;
  if (masters.size() < least)
    return wrong_words("masters", "a study of " + what + " wants " + std::to_string(least) + " masters or more",
                       "name their sizes such as --masters 25,50,75");
  return masters;
}

Result<Ask> ask_of(const Draft& draft, const Json& object) {
  const Params params(object);
  Ask ask;
  TENTH_TRY(ask.name, new_study_name(draft.bench(), params));
  TENTH_TRY(ask.what, params.text("what"));
  if (ask.what != "bias" && ask.what != "linearity")
    return wrong_words("what", "`" + ask.what + "` is no study of masters", "bias or linearity");
  TENTH_TRY(const std::string gauge, params.text("gauge"));
  TENTH_TRY(ask.gauge, gauge_named(draft.bench(), gauge));
  if (ask.gauge->reads != Reads::size)
    return refuse("reads_deviation",
                  "gauge `" + gauge + "` reads deviations: it is set on its master and has no bias there",
                  "`tenth charts " + gauge + "` shows its drift");
  TENTH_TRY(ask.masters, masters_of(draft.bench(), params, ask.what));
  TENTH_TRY(const std::optional<std::int64_t> trials, params.maybe_number("trials"));
  if (!trials || *trials < 1 || *trials > 10'000)
    return wrong_words("trials", "trials is a whole number from 1", "10 on each master are usual");
  ask.trials = static_cast<int>(*trials);
  return ask;
}

/// The gauge waits for the master of the study's next turn, as long as that takes.
void await_turn(Draft& draft, const MasterStudy& study) {
  if (study.whole()) return;
  const Gauge& gauge = draft.bench().gauges.at(study.gauge);
  draft.append("await", {{"gauge", gauge.name},
                         {"gauge_entry", gauge.entry},
                         {"act", "study"},
                         {"study", study.name},
                         {"master_pm", pm(study.order[study.shown.size()])}});
}

}  // namespace

Result<std::string> new_study_name(const Bench& bench, const Params& params) {
  TENTH_TRY(const std::string asked, params.text("name"));
  TENTH_TRY(const std::string name, checked_name(asked, "a study"));
  if (bench.studies.contains(name) || bench.master_studies.contains(name))
    return refuse("study_exists", "there is a study `" + name + "` already", "give this one another name");
  return name;
}

Decided plan_on_masters(Draft& draft, const Json& object) {
  TENTH_TRY(const Ask ask, ask_of(draft, object));
  const std::string seed = random_hex(8);
  TENTH_TRY(const auto plan, statistics::study_plan(static_cast<int>(ask.masters.size()), 1, ask.trials,
                                                    std::stoull(seed, nullptr, 16)));
  Json order = Json::array();
  for (const statistics::StudyPlace& turn : plan)
    order.push_back({{"master_pm", pm(ask.masters[static_cast<std::size_t>(turn.part - 1)])}, {"trial", turn.trial}});
  const std::string gauge = ask.gauge->name;
  end_waiting(draft, gauge, "study");
  draft.append("master_study", {{"study", ask.name},
                                {"gauge", gauge},
                                {"gauge_entry", draft.bench().gauges.at(gauge).entry},
                                {"what", ask.what},
                                {"trials", ask.trials},
                                {"seed", seed},
                                {"order", std::move(order)}});
  await_turn(draft, draft.bench().master_studies.at(ask.name));
  return [name = ask.name](const View& view) {
    const MasterStudy& study = view.bench.master_studies.at(name);
    Json answer = master_study_json(view.bench, study);
    answer["turns"] = study.order.size();
    return answer;
  };
}

std::int64_t take_on_master(Draft& draft, const Gauge& gauge, const Awaited& awaited, const Frame& frame) {
  const std::string name = awaited.study;
  const auto who = operator_of(draft.bench(), gauge.name);
  Json body = {{"study", name},
               {"gauge", gauge.name},
               {"gauge_entry", gauge.entry},
               {"master_pm", pm(awaited.master)},
               {"shown_pm", pm(frame.measurement.value)},
               {"raw", escape_bytes(frame.measurement.raw)},
               {"text", frame.measurement.text},
               {"unit", tenth::name(frame.measurement.unit)},
               {"arrived", rfc3339(frame.arrived.wall_us)}};
  body["operator"] = or_null(who);
  body["operator_entry"] = who ? Json(draft.bench().operators.at(*who).entry) : Json(nullptr);
  const std::int64_t seq = draft.append("on_master", std::move(body));
  await_turn(draft, draft.bench().master_studies.at(name));
  return seq;
}

void void_damaged_turns(Draft& draft, const std::vector<std::int64_t>& seqs) {
  std::vector<std::string> damaged;
  for (const auto& [name, study] : draft.bench().master_studies)
    if (std::ranges::find(seqs, study.seq) != seqs.end()) damaged.push_back(name);
  for (const std::string& name : damaged) {
    const MasterStudy& study = draft.bench().master_studies.at(name);
    const Gauge& gauge = draft.bench().gauges.at(study.gauge);
    const bool waits_for_it = !gauge.awaited || gauge.awaited->study == name;
    draft.append("turns_void", {{"study", name},
                                {"gauge", study.gauge},
                                {"turns", std::min(seqs.size(), study.shown.size())},
                                {"why", "bytes beside their frames were damaged"}});
    if (waits_for_it) await_turn(draft, study);
  }
}

}  // namespace tenth
