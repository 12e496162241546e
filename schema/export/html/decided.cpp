#include "schema/export/html/decided.hpp"

#include <map>

#include "schema/export/html/markup.hpp"
#include "schema/export/html/words.hpp"

namespace tenth::page {
namespace {

/// What was decided and why, in markup, at the entry it is about.
struct Decision {
  std::int64_t seq = 0;
  std::string what, why;
};

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

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
    decisions.push_back({entry, "Stage " + element("b", escaped(stage.name)) + " begun " + short_time(stage.time),
                         escaped(heading(joined(features[entry]))) + ": " + how});
  }
  return decisions;
}

std::string reading_words(const Reading& reading, const Engine& engine) {
  std::string where = reading.place ? spaced(spoken(*reading.place, *engine.spec)) : "no place";
  return "Reading " + std::to_string(reading.seq) + " (" + escaped(where) + ", “" + escaped(reading.text) + "”)";
}

std::string doubts_words(const Reading& reading) {
  std::vector<std::string> words;
  for (const Doubt doubt : reading.doubts) words.push_back(doubt_words(doubt));
  return joined(words);
}

std::vector<Decision> about_readings(const Engine& engine) {
  std::vector<Decision> decisions;
  for (const Reading& reading : engine.readings) {
    const std::string when = reading.reason ? ", " + short_time(reading.reason_time) : "";
    const std::string why = reading.reason ? escaped(*reading.reason) + " – " + escaped(reading.reason_by) : "";
    const std::string subject = reading_words(reading, engine);
    if (reading.moved_from)
      decisions.push_back({reading.seq,
                           subject + " moved here from " + escaped(spaced(spoken(*reading.moved_from, *engine.spec))) + when,
                           why});
    if (reading.state == State::voided)
      decisions.push_back({reading.seq, subject + " set aside (void)" + when, why});
    else if (reading.state == State::kept && !reading.doubts.empty() && reading.reason)
      decisions.push_back({reading.seq, subject + " kept although: " + doubts_words(reading) + when, why});
  }
  return decisions;
}

std::vector<Decision> alerts_cleared(const Bench& bench, const Engine& engine) {
  std::vector<Decision> decisions;
  for (const Alert& alert : bench.alerts)
    if (alert.cause.engine == engine.name && alert.state == AlertState::cleared)
      decisions.push_back({alert.id, "Alert accepted: " + escaped(alert.cause.text),
                           escaped(alert.note) + " – " + escaped(alert.cleared_by)});
  return decisions;
}

std::vector<Decision> choices_made(const Bench& bench, const Engine& engine) {
  std::vector<Decision> decisions;
  for (const Choice& choice : bench.choices)
    if (choice.engine == engine.name) {
      const std::string why = choice.reason ? escaped(*choice.reason) + " – " : "";
      decisions.push_back(
          {choice.seq, escaped(choice.text) + ", " + short_time(choice.time), why + escaped(choice.who)});
    }
  return decisions;
}

}  // namespace

std::string decided_markup(const Bench& bench, const Engine& engine) {
  std::multimap<std::int64_t, Decision> all;  // what is about one entry stays in its order
  for (const auto& some :
       {stages_begun(engine), choices_made(bench, engine), about_readings(engine), alerts_cleared(bench, engine)})
    for (const Decision& decision : some) all.emplace(decision.seq, decision);
  if (all.empty())
    return element("p",
                   "Nothing had to be decided: no stage begun, nothing chosen, no reading set aside, kept or moved.");
  std::vector<Cells> rows;
  for (const auto& [seq, decision] : all) rows.push_back({std::to_string(seq), decision.what, decision.why});
  return table("decisions", {{"entry", ""}, {"what", ""}, {"why", ""}}, rows);
}

}  // namespace tenth::page
