#include "schema/export/paper/decided.hpp"

#include <map>

#include "rules/joined.hpp"
#include "rules/words.hpp"
#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

/// What was decided and why, at the entry it is about.
struct Decision {
  std::int64_t seq = 0;
  Line what;
  std::string why;
};

std::vector<Decision> stages_begun(const Engine& engine) {
  std::map<std::int64_t, std::vector<std::string>> features;
  std::map<std::int64_t, Stage> begun;
  for (const auto& [feature, stages] : engine.stages)
    for (const Stage& stage : stages)
      if (stage.entry != 0) {
        features[stage.entry].push_back(spaced(feature));
        begun[stage.entry] = stage;
      }
  std::vector<Decision> decisions;
  for (const auto& [entry, stage] : begun) {
    const std::string how = stage.carry ? "earlier readings count until replaced" : "to be measured again";
    decisions.push_back({entry,
                         {{"Stage "}, {stage.name, Face::bold}, {" begun " + short_time(stage.time)}},
                         heading(joined(features[entry])) + ": " + how});
  }
  return decisions;
}

std::string reading_words(const Reading& reading, const Engine& engine) {
  const std::string where = reading.place ? spaced(spoken(*reading.place, *engine.spec)) : "no place";
  return "Reading " + std::to_string(reading.seq) + " (" + where + ", “" + reading.text + "”)";
}

std::string doubts_words(const Reading& reading) {
  std::vector<std::string> words;
  words.reserve(reading.doubts.size());
  for (const Doubt doubt : reading.doubts) words.emplace_back(plainly(doubt));
  return joined(words);
}

/// What became of a reading; empty where it was kept without a doubt.
std::string fate_words(const Reading& reading) {
  if (reading.state == State::suspect) return " is held as suspect and counts for nothing";
  if (reading.state == State::voided) return " set aside (void)";
  return !reading.doubts.empty() && reading.reason ? " kept although: " + doubts_words(reading) : "";
}

std::vector<Decision> about_readings(const Engine& engine) {
  std::vector<Decision> decisions;
  for (const Reading& reading : engine.readings) {
    const std::string when = reading.reason ? ", " + short_time(reading.reason_time) : "";
    const std::string why = reading.reason ? *reading.reason + " – " + reading.reason_by : "";
    const std::string subject = reading_words(reading, engine);
    if (reading.moved_from)
      decisions.push_back({reading.seq,
                           {{subject + " moved here from " + spaced(spoken(*reading.moved_from, *engine.spec)) + ", " +
                             short_time(reading.moved_time)}},
                           reading.moved_reason + " – " + reading.moved_by});
    const std::string fate = fate_words(reading);
    if (reading.state == State::suspect)
      decisions.push_back(
          {reading.seq, {{subject + fate}}, heading(doubts_words(reading)) + ": nobody has decided yet"});
    else if (!fate.empty())
      decisions.push_back({reading.seq, {{(subject + fate).append(when)}}, why});
  }
  return decisions;
}

std::vector<Decision> alerts_cleared(const Bench& bench, const Engine& engine) {
  std::vector<Decision> decisions;
  for (const Alert& alert : bench.alerts)
    if (alert.cause.engine == engine.name && alert.state == AlertState::cleared)
      decisions.push_back({alert.id, {{"Alert accepted: " + alert.cause.text}}, alert.note + " – " + alert.cleared_by});
  return decisions;
}

std::vector<Decision> choices_made(const Bench& bench, const Engine& engine) {
  std::vector<Decision> decisions;
  for (const Choice& choice : bench.choices)
    if (choice.engine == engine.name) {
      const std::string why = choice.reason ? *choice.reason + " – " : "";
      decisions.push_back({choice.seq, {{choice.text + ", " + short_time(choice.time)}}, why + choice.who});
    }
  return decisions;
}

}  // namespace

Part decided_part(const Bench& bench, const Engine& engine) {
  std::multimap<std::int64_t, Decision> all;  // what is about one entry stays in its order
  for (const auto& some :
       {stages_begun(engine), choices_made(bench, engine), about_readings(engine), alerts_cleared(bench, engine)})
    for (const Decision& decision : some) all.emplace(decision.seq, decision);
  if (all.empty())
    return {"",
            {said("Nothing had to be decided: no stage begun, nothing chosen, no reading set aside, kept or moved.")}};
  Table table{Density::list, {{"entry"}, {"what", Manner::note}, {"why", Manner::note}}, {}};
  for (const auto& [seq, decision] : all) table.rows.push_back({std::to_string(seq), decision.what, decision.why});
  return {"", {std::move(table)}};
}

}  // namespace tenth::paper
